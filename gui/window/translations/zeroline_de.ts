<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de" sourcelanguage="en">
<context>
    <name>BenchPlace</name>
    <message>
        <source>Stop. Is someone connected?</source>
        <translation>Halt. Ist jemand angeschlossen?</translation>
    </message>
    <message>
        <source>Stop. Keep this unit out of use.</source>
        <translation>Halt. Dieses Gerät nicht benutzen.</translation>
    </message>
    <message>
        <source>If a person depends on it, arrange a replacement now: %1.</source>
        <translation>Ist jemand darauf angewiesen, jetzt für Ersatz sorgen: %1.</translation>
    </message>
    <message>
        <source>No reading came in: nothing was saved.</source>
        <translation>Es kam kein Messwert: nichts wurde gespeichert.</translation>
    </message>
    <message>
        <source>As-left run: attempt %1 stays as the as-found one.</source>
        <translation>Prüfung nach der Justierung: Versuch %1 bleibt als vorgefundener Zustand erhalten.</translation>
    </message>
    <message>
        <source>This run stands in place of attempt %1.</source>
        <translation>Diese Prüfung tritt an die Stelle von Versuch %1.</translation>
    </message>
    <message>
        <source>%1. What was captured is kept in %2.</source>
        <translation>%1. Das bisher Aufgezeichnete liegt in %2.</translation>
    </message>
    <message>
        <source>Take the hose off the person now. The pressure moves as it does where somebody breathes at the hose.</source>
        <translation>Den Schlauch jetzt von der Person abnehmen. Der Druck bewegt sich so, wie wenn jemand am Schlauch atmet.</translation>
    </message>
    <message>
        <source>Next: stop it, take the plug out, switch it off, label it &apos;out of use&apos;.</source>
        <translation>Danach: anhalten, Stopfen ziehen, ausschalten, als „außer Betrieb“ kennzeichnen.</translation>
    </message>
    <message>
        <source>Next: see to the person, take plug and line off; then run again with nobody connected.</source>
        <translation>Danach: nach der Person sehen, Stopfen und Messleitung abnehmen; dann wiederholen, ohne dass jemand angeschlossen ist.</translation>
    </message>
    <message>
        <source>Understood: make safe and hold back  [Space]</source>
        <translation>Verstanden: sichern und zurückhalten  [Leertaste]</translation>
    </message>
    <message>
        <source>Understood: the person first, then make safe  [Space]</source>
        <translation>Verstanden: erst die Person, dann sichern  [Leertaste]</translation>
    </message>
    <message>
        <source>If help or another unit is needed: %1.</source>
        <translation>Wenn Hilfe oder ein anderes Gerät gebraucht wird: %1.</translation>
    </message>
    <message>
        <source>If a person depends on it, arrange a replacement now; do not leave them without one.</source>
        <translation>Wenn eine Person darauf angewiesen ist, sofort Ersatz besorgen; niemand bleibt ohne Gerät.</translation>
    </message>
</context>
<context>
    <name>Checklist</name>
    <message>
        <source>prescription complete and read back</source>
        <translation>Verordnung vollständig und am Gerät nachgeprüft</translation>
    </message>
    <message>
        <source>case</source>
        <translation>Gehäuse</translation>
    </message>
    <message>
        <source>cord and plug</source>
        <translation>Netzleitung und Stecker</translation>
    </message>
    <message>
        <source>protection class and outlet</source>
        <translation>Schutzklasse und Steckdose</translation>
    </message>
    <message>
        <source>intake filter</source>
        <translation>Ansaugfilter</translation>
    </message>
    <message>
        <source>hose</source>
        <translation>Schlauch</translation>
    </message>
    <message>
        <source>interface</source>
        <translation>Maske oder Mundstück</translation>
    </message>
    <message>
        <source>label</source>
        <translation>Kennzeichnung</translation>
    </message>
    <message>
        <source>clock</source>
        <translation>Uhr</translation>
    </message>
    <message>
        <source>previous user&apos;s data erased</source>
        <translation>Daten des vorigen Benutzers gelöscht</translation>
    </message>
    <message>
        <source>same plateau on battery</source>
        <translation>gleiches Plateau auf Akku</translation>
    </message>
    <message>
        <source>alarm on opening the plug</source>
        <translation>Alarm beim Lösen des Stopfens</translation>
    </message>
    <message>
        <source>filters</source>
        <translation>Filter</translation>
    </message>
    <message>
        <source>seals</source>
        <translation>Dichtungen</translation>
    </message>
    <message>
        <source>alarms</source>
        <translation>Alarme</translation>
    </message>
    <message>
        <source>electrical safety</source>
        <translation>elektrische Sicherheit</translation>
    </message>
    <message>
        <source>strength under flow</source>
        <translation>Leistung bei Flow</translation>
    </message>
    <message>
        <source>battery duration</source>
        <translation>Akkulaufzeit</translation>
    </message>
    <message>
        <source>outlet</source>
        <translation>Steckdose</translation>
    </message>
    <message>
        <source>on a hard surface</source>
        <translation>auf festem Untergrund</translation>
    </message>
    <message>
        <source>made safe and kept out of use</source>
        <translation>gesichert und außer Betrieb gehalten</translation>
    </message>
    <message>
        <source>instrument check</source>
        <translation>Messgerät gegen ein zweites geprüft</translation>
    </message>
</context>
<context>
    <name>ChecklistPanel</name>
    <message>
        <source>temperature of the room</source>
        <translation>Temperatur des Raums</translation>
    </message>
    <message>
        <source>pressure of the air</source>
        <translation>Luftdruck</translation>
    </message>
    <message>
        <source>relative humidity</source>
        <translation>relative Feuchte</translation>
    </message>
    <message>
        <source>another item</source>
        <translation>weiterer Punkt</translation>
    </message>
    <message>
        <source>%1: outcome</source>
        <translation>%1: Ergebnis</translation>
    </message>
    <message>
        <source>not looked at</source>
        <translation>nicht angesehen</translation>
    </message>
    <message>
        <source>in order</source>
        <translation>in Ordnung</translation>
    </message>
    <message>
        <source>not in order</source>
        <translation>nicht in Ordnung</translation>
    </message>
    <message>
        <source>does not apply</source>
        <translation>entfällt</translation>
    </message>
    <message>
        <source>remark</source>
        <translation>Bemerkung</translation>
    </message>
    <message>
        <source>%1: remark</source>
        <translation>%1: Bemerkung</translation>
    </message>
    <message>
        <source>Air in the room: temperature</source>
        <translation>Raumluft: Temperatur</translation>
    </message>
    <message>
        <source>pressure</source>
        <translation>Druck</translation>
    </message>
    <message>
        <source>humidity</source>
        <translation>Feuchte</translation>
    </message>
    <message>
        <source>All seen, all in order</source>
        <translation>Alles gesehen, alles in Ordnung</translation>
    </message>
    <message>
        <source>how long the instrument has been on when the run begins</source>
        <translation>wie lange das Messgerät bei Beginn der Prüfung schon eingeschaltet ist</translation>
    </message>
    <message>
        <source>instrument on for</source>
        <translation>Messgerät eingeschaltet seit</translation>
    </message>
</context>
<context>
    <name>CloseUpWords</name>
    <message>
        <source>cmH2O</source>
        <translation>cmH2O</translation>
    </message>
    <message>
        <source>seconds from onset</source>
        <translation>Sekunden ab Beginn</translation>
    </message>
    <message>
        <source>seconds</source>
        <translation>Sekunden</translation>
    </message>
    <message>
        <source>worst %1</source>
        <translation>ungünstigster Wert %1</translation>
    </message>
    <message>
        <source>zero readings</source>
        <translation>Nullpunkt</translation>
    </message>
</context>
<context>
    <name>DisplayedFields</name>
    <message>
        <source>insufflation cmH2O</source>
        <translation>Insufflation cmH2O</translation>
    </message>
    <message>
        <source>exsufflation cmH2O</source>
        <translation>Exsufflation cmH2O</translation>
    </message>
    <message>
        <source>displayed insufflation pressure</source>
        <translation>angezeigter Insufflationsdruck</translation>
    </message>
    <message>
        <source>displayed exsufflation pressure</source>
        <translation>angezeigter Exsufflationsdruck</translation>
    </message>
    <message>
        <source>not read</source>
        <translation>nicht abgelesen</translation>
    </message>
</context>
<context>
    <name>Fault</name>
    <message>
        <source>the instrument reads this much too low at every pressure</source>
        <translation>das Messgerät zeigt bei jedem Druck um so viel zu wenig</translation>
    </message>
    <message>
        <source>the instrument reads this much at zero</source>
        <translation>das Messgerät zeigt so viel bei null</translation>
    </message>
    <message>
        <source>the instrument&apos;s zero moves this far from the beginning to the end</source>
        <translation>die Null des Messgeräts wandert vom Anfang bis zum Ende so weit</translation>
    </message>
    <message>
        <source>the instrument&apos;s clock is this much fast</source>
        <translation>die Uhr des Messgeräts geht um so viel vor</translation>
    </message>
    <message>
        <source>sensor and line follow the pressure with this lag</source>
        <translation>Sensor und Leitung folgen dem Druck mit dieser Verzögerung</translation>
    </message>
    <message>
        <source>the instrument sends another unit than its file says</source>
        <translation>das Messgerät sendet eine andere Einheit, als seine Datei sagt</translation>
    </message>
    <message>
        <source>an absolute sensor: atmospheric pressure is added to everything</source>
        <translation>ein Absolutdrucksensor: zu allem kommt der Luftdruck hinzu</translation>
    </message>
    <message>
        <source>a sensor that cannot read below zero</source>
        <translation>ein Sensor, der unter null nichts anzeigen kann</translation>
    </message>
    <message>
        <source>a sensor whose range ends below the plateaus</source>
        <translation>ein Sensor, dessen Bereich unterhalb der Plateaus endet</translation>
    </message>
    <message>
        <source>one reading is repeated until the hose is opened</source>
        <translation>ein Messwert wiederholt sich, bis der Schlauch geöffnet wird</translation>
    </message>
    <message>
        <source>the instrument samples only so often</source>
        <translation>das Messgerät misst nur so oft</translation>
    </message>
    <message>
        <source>a USB bridge delivers readings in batches at this interval</source>
        <translation>ein USB-Adapter liefert Messwerte stoßweise in diesem Abstand</translation>
    </message>
    <message>
        <source>50 Hz of this amplitude in the readings</source>
        <translation>50 Hz dieser Amplitude in den Messwerten</translation>
    </message>
    <message>
        <source>so many single readings are 60 cmH2O off</source>
        <translation>so viele einzelne Messwerte liegen um 60 cmH2O daneben</translation>
    </message>
    <message>
        <source>this share of the readings is counted but never sent</source>
        <translation>dieser Anteil der Messwerte wird gezählt, aber nie gesendet</translation>
    </message>
    <message>
        <source>this share of the readings is spoilt by foreign bytes</source>
        <translation>dieser Anteil der Messwerte ist durch fremde Bytes verdorben</translation>
    </message>
    <message>
        <source>this share of the readings loses the end of its bytes</source>
        <translation>diesem Anteil der Messwerte fehlt das Ende ihrer Bytes</translation>
    </message>
    <message>
        <source>the serial adapter is pulled</source>
        <translation>der serielle Adapter wird gezogen</translation>
    </message>
    <message>
        <source>the serial adapter is pulled and comes back after this time</source>
        <translation>der serielle Adapter wird gezogen und kommt nach dieser Zeit zurück</translation>
    </message>
    <message>
        <source>the plug leaks: both pressures lose this share, a little unsteadily</source>
        <translation>der Stopfen leckt: beide Drücke verlieren diesen Anteil, etwas unruhig</translation>
    </message>
    <message>
        <source>the sensing line is pinched: every edge takes so long</source>
        <translation>die Messleitung ist gequetscht: jede Flanke dauert so lange</translation>
    </message>
    <message>
        <source>the hose is held shut with the palm: plateaus wobble by this much</source>
        <translation>der Schlauch wird mit der Hand zugehalten: die Plateaus schwanken um so viel</translation>
    </message>
    <message>
        <source>the plug pops off in one insufflation and is put back in the next pause</source>
        <translation>der Stopfen springt in einer Insufflation ab und wird in der nächsten Pause wieder eingesetzt</translation>
    </message>
    <message>
        <source>a person breathes at the closed hose, this far to either side</source>
        <translation>eine Person atmet am geschlossenen Schlauch, so weit nach beiden Seiten</translation>
    </message>
    <message>
        <source>a person who does not breathe, or a bag, is on the hose: a lung of this compliance</source>
        <translation>eine Person, die nicht atmet, oder ein Beutel ist am Schlauch: eine Lunge dieser Compliance</translation>
    </message>
    <message>
        <source>a person is on the hose and breathes with this effort: a lung of 50 mL/cmH2O</source>
        <translation>eine Person ist am Schlauch und atmet mit dieser Anstrengung: eine Lunge von 50 mL/cmH2O</translation>
    </message>
    <message>
        <source>the hose is squeezed for 0.2 to 0.3 s in one exsufflation</source>
        <translation>der Schlauch wird in einer Exsufflation 0,2 bis 0,3 s lang gedrückt</translation>
    </message>
    <message>
        <source>the sensing line is on the sensor&apos;s other port: every sign is turned</source>
        <translation>die Messleitung sitzt am anderen Anschluss des Sensors: jedes Vorzeichen ist umgekehrt</translation>
    </message>
    <message>
        <source>the sensing line rings at 68 Hz after each transition</source>
        <translation>die Messleitung schwingt nach jedem Übergang mit 68 Hz nach</translation>
    </message>
    <message>
        <source>the hose rings at 48 Hz after each transition</source>
        <translation>der Schlauch schwingt nach jedem Übergang mit 48 Hz nach</translation>
    </message>
    <message>
        <source>insufflation stays this much below its setting</source>
        <translation>die Insufflation bleibt um so viel unter ihrer Einstellung</translation>
    </message>
    <message>
        <source>exsufflation stays this much short of its setting</source>
        <translation>die Exsufflation bleibt um so viel hinter ihrer Einstellung zurück</translation>
    </message>
    <message>
        <source>insufflation goes this much beyond its setting</source>
        <translation>die Insufflation geht um so viel über ihre Einstellung hinaus</translation>
    </message>
    <message>
        <source>both pressures fall short by this share, and rise more slowly</source>
        <translation>beide Drücke bleiben um diesen Anteil zurück und steigen langsamer</translation>
    </message>
    <message>
        <source>it holds its pressure at a closed end; where air flows it lacks this share</source>
        <translation>am geschlossenen Ende hält es seinen Druck; wo Luft strömt, fehlt dieser Anteil</translation>
    </message>
    <message>
        <source>a leak in hose or unit takes this share of both pressures</source>
        <translation>ein Leck in Schlauch oder Gerät nimmt beiden Drücken diesen Anteil</translation>
    </message>
    <message>
        <source>a valve that leaks under suction takes this share of exsufflation</source>
        <translation>ein Ventil, das unter Sog leckt, nimmt der Exsufflation diesen Anteil</translation>
    </message>
    <message>
        <source>both pressures lose this much from the first to the last automatic cycle</source>
        <translation>beide Drücke verlieren vom ersten bis zum letzten automatischen Zyklus so viel</translation>
    </message>
    <message>
        <source>the first cycle after each start is this much short</source>
        <translation>der erste Zyklus nach jedem Start bleibt um so viel zurück</translation>
    </message>
    <message>
        <source>the unit&apos;s own gauge shows this much more than there is</source>
        <translation>die Anzeige des Geräts zeigt um so viel mehr, als da ist</translation>
    </message>
    <message>
        <source>exsufflation is set this much gentler than prescribed</source>
        <translation>die Exsufflation ist um so viel schwächer eingestellt als verordnet</translation>
    </message>
    <message>
        <source>a stuck valve leaves this pressure in the pauses</source>
        <translation>ein klemmendes Ventil lässt diesen Druck in den Pausen stehen</translation>
    </message>
    <message>
        <source>after a phase the pressure enters the zero band only after this time</source>
        <translation>nach einer Phase erreicht der Druck das Nullband erst nach dieser Zeit</translation>
    </message>
    <message>
        <source>gas trapped at the block brings back this share of the last step, slowly</source>
        <translation>am Verschluss eingeschlossenes Gas bringt diesen Anteil des letzten Sprungs langsam zurück</translation>
    </message>
    <message>
        <source>the swing between the phases takes so long from 10 % to 90 %</source>
        <translation>der Wechsel zwischen den Phasen dauert von 10 % bis 90 % so lange</translation>
    </message>
    <message>
        <source>rise, swing and release take so long from 10 % to 90 %</source>
        <translation>Anstieg, Wechsel und Entlastung dauern von 10 % bis 90 % so lange</translation>
    </message>
    <message>
        <source>the swing time scatters with this standard deviation</source>
        <translation>die Wechselzeit streut mit dieser Standardabweichung</translation>
    </message>
    <message>
        <source>insufflation lasts this much longer than set</source>
        <translation>die Insufflation dauert um so viel länger als eingestellt</translation>
    </message>
    <message>
        <source>every phase lasts this much longer than set</source>
        <translation>jede Phase dauert um so viel länger als eingestellt</translation>
    </message>
    <message>
        <source>phase durations scatter with this standard deviation</source>
        <translation>die Dauern der Phasen streuen mit dieser Standardabweichung</translation>
    </message>
    <message>
        <source>so many exsufflations do not come, one in every second cycle</source>
        <translation>so viele Exsufflationen bleiben aus, eine in jedem zweiten Zyklus</translation>
    </message>
    <message>
        <source>automatic mode exsufflates first</source>
        <translation>der Automatikbetrieb beginnt mit der Exsufflation</translation>
    </message>
    <message>
        <source>the breath trigger is on: after one cycle the unit waits about 30 s and stops</source>
        <translation>der Atemtrigger ist an: nach einem Zyklus wartet das Gerät etwa 30 s und hält an</translation>
    </message>
    <message>
        <source>automatic mode ends by itself after the lead cycles and the cycles needed</source>
        <translation>der Automatikbetrieb endet von selbst nach den Vorlaufzyklen und den nötigen Zyklen</translation>
    </message>
    <message>
        <source>the plateau loses this share over its window</source>
        <translation>das Plateau verliert über sein Fenster diesen Anteil</translation>
    </message>
    <message>
        <source>each phase overshoots its plateau by this share of the step</source>
        <translation>jede Phase schießt um diesen Anteil des Sprungs über ihr Plateau hinaus</translation>
    </message>
    <message>
        <source>an oscillation of this amplitude that is not prescribed</source>
        <translation>eine Oszillation dieser Amplitude, die nicht verordnet ist</translation>
    </message>
    <message>
        <source>the prescribed oscillation lacks this share of its amplitude</source>
        <translation>der verordneten Oszillation fehlt dieser Anteil ihrer Amplitude</translation>
    </message>
</context>
<context>
    <name>FaultChoice</name>
    <message>
        <source>fault of the virtual bench</source>
        <translation>Fehler des virtuellen Prüfplatzes</translation>
    </message>
    <message>
        <source>none: a healthy unit</source>
        <translation>keiner: Gerät in Ordnung</translation>
    </message>
    <message>
        <source>size of the fault; empty: as the list of faults has it</source>
        <translation>Größe des Fehlers; leer: wie ihn die Liste der Fehler hat</translation>
    </message>
    <message>
        <source>size (optional)</source>
        <translation>Größe (optional)</translation>
    </message>
    <message>
        <source>practice: one that nobody tells, or none</source>
        <translation>Übung: einer, den niemand verrät, oder keiner</translation>
    </message>
</context>
<context>
    <name>FileChoice</name>
    <message>
        <source>Open...</source>
        <translation>Öffnen...</translation>
    </message>
    <message>
        <source>New...</source>
        <translation>Neu...</translation>
    </message>
    <message>
        <source>Edit...</source>
        <translation>Ändern...</translation>
    </message>
    <message>
        <source>%1, in short</source>
        <translation>%1, kurz gefasst</translation>
    </message>
    <message>
        <source>demonstration (built in)</source>
        <translation>Vorführung (eingebaut)</translation>
    </message>
    <message>
        <source>Open</source>
        <translation>Öffnen</translation>
    </message>
    <message>
        <source>JSON files (*.json);;All files (*)</source>
        <translation>JSON-Dateien (*.json);;Alle Dateien (*)</translation>
    </message>
</context>
<context>
    <name>Finding</name>
    <message>
        <source>Is a person, a bag or a soft tube connected? The pressure comes near its levels late, and slower and slower. Look at the hose end and the plug; then line and filter.</source>
        <translation>Ist eine Person, ein Beutel oder ein weicher Schlauch angeschlossen? Der Druck erreicht seine Höhe spät und immer langsamer. Schlauchende und Stopfen ansehen; dann Leitung und Filter.</translation>
    </message>
    <message>
        <source>One cycle is unlike the others: was the hose touched? More cycles are needed; it is left out once, a second one is the unit&apos;s.</source>
        <translation>Ein Zyklus ist anders als die übrigen: wurde der Schlauch berührt? Es braucht mehr Zyklen; einmal wird er weggelassen, ein zweiter wird dem Gerät zugerechnet.</translation>
    </message>
    <message>
        <source>Stop. Is someone connected? The pressure swings like breath. Take the hose off the person; run again with nobody connected.</source>
        <translation>Halt. Ist jemand angeschlossen? Der Druck schwankt wie Atem. Den Schlauch von der Person nehmen; wiederholen, ohne dass jemand angeschlossen ist.</translation>
    </message>
    <message>
        <source>Both signs are the other way round: sensing line on the wrong port of the sensor, or the unit. Try the other port.</source>
        <translation>Beide Vorzeichen sind vertauscht: Messleitung am falschen Anschluss des Sensors, oder das Gerät. Den anderen Anschluss versuchen.</translation>
    </message>
    <message>
        <source>More pressure than prescribed and allowed. Keep the unit out of use; check zero and setting.</source>
        <translation>Mehr Druck als verordnet und erlaubt. Gerät nicht benutzen; Nullpunkt und Einstellung prüfen.</translation>
    </message>
    <message>
        <source>The pressure stayed beyond its peak limit. Keep the unit out of use.</source>
        <translation>Der Druck blieb über seiner Spitzengrenze. Gerät nicht benutzen.</translation>
    </message>
    <message>
        <source>Exsufflation came first in most cycles. Keep the unit out of use; check how it is connected.</source>
        <translation>In den meisten Zyklen kam die Exsufflation zuerst. Gerät nicht benutzen; Anschluss prüfen.</translation>
    </message>
    <message>
        <source>The unit did the opposite of what was asked for by hand.</source>
        <translation>Im Handbetrieb tat das Gerät das Gegenteil dessen, was verlangt war.</translation>
    </message>
    <message>
        <source>Looks like an absolute pressure sensor. Try a gauge (or differential) sensor.</source>
        <translation>Sieht nach einem Absolutdrucksensor aus. Einen Relativ- oder Differenzdrucksensor versuchen.</translation>
    </message>
    <message>
        <source>No phase was seen. Is the unit running, is the line on the tee, does the plug sit tight?</source>
        <translation>Keine Phase war zu sehen. Läuft das Gerät, sitzt die Leitung am T-Stück, ist der Stopfen dicht?</translation>
    </message>
    <message>
        <source>The calibration of the instrument has lapsed: indicative only. Try another instrument.</source>
        <translation>Die Kalibrierung des Messgeräts ist abgelaufen: nur zur Orientierung. Ein anderes Messgerät nehmen.</translation>
    </message>
    <message>
        <source>Readings that the calibration does not cover. Try a sensor calibrated over the whole range.</source>
        <translation>Messwerte außerhalb der Kalibrierung. Einen über den ganzen Bereich kalibrierten Sensor nehmen.</translation>
    </message>
    <message>
        <source>Looks like another pressure unit: both pressures are off by the ratio of two units. Check the unit of the instrument file.</source>
        <translation>Sieht nach einer anderen Druckeinheit aus: beide Drücke sind um das Verhältnis zweier Einheiten falsch. Die Einheit in der Messgerätedatei prüfen.</translation>
    </message>
    <message>
        <source>The open port does not read zero. Set the instrument to zero, with the line off the tee.</source>
        <translation>Der offene Anschluss zeigt nicht null. Messgerät auf null stellen, mit der Leitung vom T-Stück ab.</translation>
    </message>
    <message>
        <source>The zero moved during the run. Try a longer warm-up and an even temperature; look for water or a kink in the line.</source>
        <translation>Der Nullpunkt ist gewandert. Länger aufwärmen, gleichmäßige Temperatur; die Leitung auf Wasser und Knicke ansehen.</translation>
    </message>
    <message>
        <source>Looks like a sensor that cannot read below zero. Try one for both signs.</source>
        <translation>Sieht nach einem Sensor aus, der nicht unter null misst. Einen für beide Vorzeichen nehmen.</translation>
    </message>
    <message>
        <source>Readings stop at the end of the sensor&apos;s range. Try a sensor with a wider range.</source>
        <translation>Die Messwerte enden am Rand des Messbereichs. Einen Sensor mit größerem Bereich nehmen.</translation>
    </message>
    <message>
        <source>The same reading came again and again. Restart the instrument, check its line.</source>
        <translation>Immer wieder derselbe Messwert. Messgerät neu starten, seine Leitung prüfen.</translation>
    </message>
    <message>
        <source>The steps of the reading are coarser than its noise.</source>
        <translation>Die Stufen des Messwerts sind gröber als sein Rauschen.</translation>
    </message>
    <message>
        <source>Readings are missing. Check cable and adapter; the cycles with gaps do not count.</source>
        <translation>Messwerte fehlen. Kabel und Adapter prüfen; die Zyklen mit Lücken zählen nicht.</translation>
    </message>
    <message>
        <source>Bytes came that are no reading. Check cable, baud and parity.</source>
        <translation>Es kamen Bytes, die kein Messwert sind. Kabel, Baudrate und Parität prüfen.</translation>
    </message>
    <message>
        <source>Single readings are far off. Check cable and shielding; they are left out.</source>
        <translation>Einzelne Messwerte liegen weit daneben. Kabel und Schirmung prüfen; sie werden ausgelassen.</translation>
    </message>
    <message>
        <source>Readings arrive in bunches, as an adapter delivers them; their times are taken from the count.</source>
        <translation>Messwerte kommen in Bündeln, wie ein Adapter sie liefert; ihre Zeiten folgen aus der Zählung.</translation>
    </message>
    <message>
        <source>Fewer than three readings in a transition. Try a faster rate.</source>
        <translation>Weniger als drei Messwerte in einem Übergang. Eine höhere Rate versuchen.</translation>
    </message>
    <message>
        <source>Mains hum in the readings. Try another supply or a battery, and a shorter cable.</source>
        <translation>Netzbrummen in den Messwerten. Ein anderes Netzteil oder Akkubetrieb und ein kürzeres Kabel versuchen.</translation>
    </message>
    <message>
        <source>Looks like a hand that holds the hose shut. Try the plug.</source>
        <translation>Sieht nach einer Hand aus, die den Schlauch zuhält. Den Stopfen nehmen.</translation>
    </message>
    <message>
        <source>The plug came off inside a phase. Press it in again; that cycle does not count.</source>
        <translation>Der Stopfen löste sich in einer Phase. Wieder eindrücken; dieser Zyklus zählt nicht.</translation>
    </message>
    <message>
        <source>Both pressures are off by one ratio: leak, weak blower, or the sensor&apos;s span. Try the leak test, another hose, a second gauge.</source>
        <translation>Beide Drücke sind im selben Verhältnis falsch: Leck, schwaches Gebläse oder die Spanne des Sensors. Lecktest, anderer Schlauch, zweites Manometer.</translation>
    </message>
    <message>
        <source>All levels are shifted by the same amount: looks like the zero. Read zero again.</source>
        <translation>Alle Drücke sind um denselben Betrag verschoben: sieht nach dem Nullpunkt aus. Nullpunkt neu messen.</translation>
    </message>
    <message>
        <source>The unit is set otherwise than prescribed: no fault of the unit. Do not change it unless authorised.</source>
        <translation>Das Gerät ist anders eingestellt als verordnet: kein Fehler des Geräts. Nur mit Befugnis ändern.</translation>
    </message>
    <message>
        <source>The first cycle differs from the others, as is usual.</source>
        <translation>Der erste Zyklus weicht ab, wie üblich.</translation>
    </message>
    <message>
        <source>The programmed series came to its end.</source>
        <translation>Die programmierte Serie war zu Ende.</translation>
    </message>
    <message>
        <source>A phase begins or ends outside its span and is not judged.</source>
        <translation>Eine Phase beginnt oder endet außerhalb ihres Abschnitts und wird nicht beurteilt.</translation>
    </message>
    <message>
        <source>Insufflation did not come in a cycle. Check valve and control of the unit.</source>
        <translation>In einem Zyklus blieb die Insufflation aus. Ventil und Steuerung des Geräts prüfen.</translation>
    </message>
    <message>
        <source>Exsufflation did not come in a cycle. Check valve and control of the unit.</source>
        <translation>In einem Zyklus blieb die Exsufflation aus. Ventil und Steuerung des Geräts prüfen.</translation>
    </message>
    <message>
        <source>A pause far longer than prescribed: is the breath trigger on? Switch it off and repeat.</source>
        <translation>Eine Pause weit länger als verordnet: ist der Atemtrigger an? Ausschalten und wiederholen.</translation>
    </message>
    <message>
        <source>Insufflation does not reach its pressure. Check zero, plug and hose; then its control.</source>
        <translation>Die Insufflation erreicht ihren Druck nicht. Nullpunkt, Stopfen, Schlauch prüfen; dann ihre Steuerung.</translation>
    </message>
    <message>
        <source>Exsufflation does not reach its pressure. Check zero, plug and hose; then its control.</source>
        <translation>Die Exsufflation erreicht ihren Druck nicht. Nullpunkt, Stopfen, Schlauch prüfen; dann ihre Steuerung.</translation>
    </message>
    <message>
        <source>What the unit displays differs from what was measured.</source>
        <translation>Die Anzeige des Geräts weicht vom Gemessenen ab.</translation>
    </message>
    <message>
        <source>The pressure rises slowly. Check filter, hose and the flow setting.</source>
        <translation>Der Druck steigt langsam. Filter, Schlauch und Flow-Einstellung prüfen.</translation>
    </message>
    <message>
        <source>The swing from insufflation to exsufflation is slow. Check the valve; if all edges are slow, the line or the filter.</source>
        <translation>Der Wechsel von Insufflation zu Exsufflation ist langsam. Das Ventil prüfen; sind alle Flanken langsam, Leitung oder Filter.</translation>
    </message>
    <message>
        <source>The pressure is released slowly. Check valve, filter and line.</source>
        <translation>Der Druck wird langsam abgebaut. Ventil, Filter und Leitung prüfen.</translation>
    </message>
    <message>
        <source>The swing differs from cycle to cycle: looks like a sticking valve.</source>
        <translation>Der Wechsel ist von Zyklus zu Zyklus verschieden: sieht nach einem klemmenden Ventil aus.</translation>
    </message>
    <message>
        <source>Durations differ from cycle to cycle.</source>
        <translation>Die Zeiten sind von Zyklus zu Zyklus verschieden.</translation>
    </message>
    <message>
        <source>One duration is off: looks like one timer.</source>
        <translation>Nur eine der Zeiten ist falsch: sieht nach ihrem eigenen Zeitgeber aus.</translation>
    </message>
    <message>
        <source>All durations are off by one ratio: the unit&apos;s clock or the instrument&apos;s.</source>
        <translation>Alle Zeiten sind im selben Verhältnis falsch: die Uhr des Geräts oder des Messgeräts.</translation>
    </message>
    <message>
        <source>The pressure overshoots its plateau.</source>
        <translation>Der Druck schwingt über sein Plateau hinaus.</translation>
    </message>
    <message>
        <source>The pressure rings after a transition: control, hose or sensing line, by its frequency.</source>
        <translation>Der Druck schwingt nach einem Übergang nach: Regelung, Schlauch oder Messleitung, je nach Frequenz.</translation>
    </message>
    <message>
        <source>Pressure stays in the pause. Check the valve; repeat with the hose end opened in the pause.</source>
        <translation>In der Pause bleibt Druck stehen. Ventil prüfen; wiederholen und dabei das Schlauchende in der Pause öffnen.</translation>
    </message>
    <message>
        <source>The pressure comes back to zero slowly, or never. Check valve and filter.</source>
        <translation>Der Druck kommt langsam oder nie auf null zurück. Ventil und Filter prüfen.</translation>
    </message>
    <message>
        <source>Looks like gas trapped at the block. Repeat with the hose end opened in the pause.</source>
        <translation>Sieht nach eingeschlossenem Gas aus. Wiederholen und dabei das Schlauchende in der Pause öffnen.</translation>
    </message>
    <message>
        <source>An oscillation that nobody prescribed. Switch it off and repeat.</source>
        <translation>Eine Oszillation, die niemand verordnet hat. Ausschalten und wiederholen.</translation>
    </message>
    <message>
        <source>The prescribed oscillation is missing or not as prescribed.</source>
        <translation>Die verordnete Oszillation fehlt oder ist nicht wie verordnet.</translation>
    </message>
    <message>
        <source>The pressures change over the run. Try again on mains, warmed up.</source>
        <translation>Die Drücke ändern sich während der Prüfung. Am Netz und aufgewärmt wiederholen.</translation>
    </message>
    <message>
        <source>The set-up loses its pressure without the unit. Look at plug, tee, hose and sensing line; then the leak test and the run again.</source>
        <translation>Der Aufbau verliert seinen Druck auch ohne das Gerät. Stopfen, T-Stück, Schlauch und Messleitung ansehen; dann Lecktest und Prüfung noch einmal.</translation>
    </message>
    <message>
        <source>Under flow the unit keeps less of its pressure than when it was first tested so. Look at its filters and its hose; then the blower.</source>
        <translation>Bei Flow hält das Gerät weniger von seinem Druck als bei der ersten Prüfung dieser Art. Filter und Schlauch ansehen, dann das Gebläse.</translation>
    </message>
    <message>
        <source>The pressure falls within the plateau. Try the leak test of the set-up, another hose.</source>
        <translation>Der Druck fällt innerhalb des Plateaus. Lecktest des Aufbaus oder einen anderen Schlauch versuchen.</translation>
    </message>
    <message>
        <source>The prescribed series cycles for long without a rest, or rests shortly. Ask whoever wrote the prescription; nothing is changed here.</source>
        <translation>Die verordnete Serie läuft lange ohne Ruhe, oder sie ruht zu kurz. Wer verordnet hat, wird gefragt; hier wird nichts geändert.</translation>
    </message>
    <message>
        <source>Zero was read before the instrument is known to be warm. Wait as long as its papers say, or say how long it has been on.</source>
        <translation>Der Nullpunkt wurde gelesen, bevor bekannt war, dass das Messgerät warm ist. So lange warten, wie seine Papiere sagen, oder angeben, wie lange es schon eingeschaltet ist.</translation>
    </message>
    <message>
        <source>What the room&apos;s temperature does to the instrument is not known: the uncertainty does not hold it. Note the temperature, and what a degree does to a reading.</source>
        <translation>Was die Raumtemperatur am Messgerät ausmacht, ist nicht bekannt: Die Unsicherheit enthält es nicht. Die Temperatur notieren, und was ein Grad am Messwert ausmacht.</translation>
    </message>
</context>
<context>
    <name>FindingsModel</name>
    <message>
        <source>Nothing stood out.</source>
        <translation>Nichts Auffälliges.</translation>
    </message>
</context>
<context>
    <name>HandBackPanel</name>
    <message>
        <source>hand-back list</source>
        <translation>Rückgabeliste</translation>
    </message>
    <message>
        <source>what is given back, and how</source>
        <translation>was zurückgegeben wird, und wie</translation>
    </message>
    <message>
        <source>What the unit displayed in the long holds</source>
        <translation>Was das Gerät beim langen Halten anzeigte</translation>
    </message>
    <message>
        <source>What the unit is set to now, read from its screen</source>
        <translation>Aktuelle Einstellungen, vom Display abgelesen</translation>
    </message>
    <message>
        <source>All of it is back and was read back  [Space]</source>
        <translation>Alles ist zurück und am Gerät nachgeprüft  [Leertaste]</translation>
    </message>
    <message>
        <source>Not all of it: end here</source>
        <translation>Nicht alles: hier beenden</translation>
    </message>
    <message>
        <source>Made safe and held back, all of it  [Space]</source>
        <translation>Alles ist gesichert und zurückgehalten  [Leertaste]</translation>
    </message>
    <message>
        <source>result so far</source>
        <translation>bisheriges Ergebnis</translation>
    </message>
    <message>
        <source>Incomplete</source>
        <translation>Unvollständig</translation>
    </message>
    <message>
        <source>Result so far: %1. It stands once the unit is handed back.</source>
        <translation>Ergebnis bisher: %1. Es gilt, sobald das Gerät zurückgegeben ist.</translation>
    </message>
    <message>
        <source>Go on with the run: nothing was touched</source>
        <translation>Prüfung fortsetzen: nichts wurde angefasst</translation>
    </message>
</context>
<context>
    <name>HeldDisplay</name>
    <message>
        <source>What the unit displays while you hold</source>
        <translation>Was das Gerät beim Halten anzeigt</translation>
    </message>
</context>
<context>
    <name>HelpDialog</name>
    <message>
        <source>Choose the work order, the instrument and its port, then begin. The run moves on by what the pressure does.

Space: done, go on, where that is allowed
Escape: give the unit back now, at every step
S: leave a step out, with a reason
C: checklist and air in the room
Plus, minus, arrows, Home, End: zoom and move the trace
U: uncertainty beside the result
Ctrl+Enter: begin the run

The whole guide, in English:</source>
        <translation>Auftrag, Messgerät und Anschluss wählen, dann beginnen. Die Prüfung geht weiter, wie der Druck es sagt.

Leertaste: fertig, weiter, wo das erlaubt ist
Escape: Gerät jetzt zurückgeben, bei jedem Schritt
S: einen Schritt auslassen, mit Begründung
C: Checkliste und Raumluft
Plus, Minus, Pfeile, Pos1, Ende: Kurve zoomen und schieben
U: Unsicherheit neben dem Ergebnis
Strg+Eingabe: Prüfung beginnen

Die ganze Anleitung, auf Englisch:</translation>
    </message>
    <message>
        <source>Help</source>
        <translation>Hilfe</translation>
    </message>
    <message>
        <source>The guide</source>
        <translation>Die Anleitung</translation>
    </message>
</context>
<context>
    <name>HomeLines</name>
    <message>
        <source>copy for home in five lines</source>
        <translation>Blatt für zu Hause in fünf Zeilen</translation>
    </message>
    <message>
        <source>For the person at home, to copy by hand where there is no printer</source>
        <translation>Für die Person zu Hause, zum Abschreiben, wo es keinen Drucker gibt</translation>
    </message>
</context>
<context>
    <name>InstrumentForm</name>
    <message>
        <source>instrument</source>
        <translation>Messgerät</translation>
    </message>
    <message>
        <source>Line and language</source>
        <translation>Leitung und Sprache</translation>
    </message>
    <message>
        <source>description and listening</source>
        <translation>Beschreibung und Mithören</translation>
    </message>
    <message>
        <source>what is wrong with the instrument</source>
        <translation>was am Messgerät nicht stimmt</translation>
    </message>
    <message>
        <source>name of the instrument</source>
        <translation>Name des Messgeräts</translation>
    </message>
    <message>
        <source>serial number of the instrument</source>
        <translation>Seriennummer des Messgeräts</translation>
    </message>
    <message>
        <source>lower end of the range</source>
        <translation>unteres Ende des Messbereichs</translation>
    </message>
    <message>
        <source>upper end of the range</source>
        <translation>oberes Ende des Messbereichs</translation>
    </message>
    <message>
        <source>unit of the range</source>
        <translation>Einheit des Messbereichs</translation>
    </message>
    <message>
        <source>resolution</source>
        <translation>Auflösung</translation>
    </message>
    <message>
        <source>nominal rate</source>
        <translation>Nennrate</translation>
    </message>
    <message>
        <source>Hz</source>
        <translation>Hz</translation>
    </message>
    <message>
        <source>error of the clock</source>
        <translation>Fehler der Uhr</translation>
    </message>
    <message>
        <source>ppm</source>
        <translation>ppm</translation>
    </message>
    <message>
        <source>Instrument</source>
        <translation>Messgerät</translation>
    </message>
    <message>
        <source>Name, serial number</source>
        <translation>Name, Seriennummer</translation>
    </message>
    <message>
        <source>Range</source>
        <translation>Messbereich</translation>
    </message>
    <message>
        <source>Resolution</source>
        <translation>Auflösung</translation>
    </message>
    <message>
        <source>Rate, clock</source>
        <translation>Rate, Uhr</translation>
    </message>
    <message>
        <source>calibration certificate</source>
        <translation>Kalibrierschein</translation>
    </message>
    <message>
        <source>calibrated on, YYYY-MM-DD</source>
        <translation>kalibriert am, JJJJ-MM-TT</translation>
    </message>
    <message>
        <source>calibration due, YYYY-MM-DD</source>
        <translation>Kalibrierung fällig am, JJJJ-MM-TT</translation>
    </message>
    <message>
        <source>expanded uncertainty</source>
        <translation>erweiterte Unsicherheit</translation>
    </message>
    <message>
        <source>coverage factor</source>
        <translation>Erweiterungsfaktor</translation>
    </message>
    <message>
        <source>calibrated from</source>
        <translation>kalibriert von</translation>
    </message>
    <message>
        <source>calibrated to</source>
        <translation>kalibriert bis</translation>
    </message>
    <message>
        <source>reference: indicated, parted by semicolons</source>
        <translation>Bezugswert: Anzeige, durch Semikolon getrennt</translation>
    </message>
    <message>
        <source>Calibration</source>
        <translation>Kalibrierung</translation>
    </message>
    <message>
        <source>Certificate</source>
        <translation>Kalibrierschein</translation>
    </message>
    <message>
        <source>On, due</source>
        <translation>Am, fällig</translation>
    </message>
    <message>
        <source>U, k</source>
        <translation>U, k</translation>
    </message>
    <message>
        <source>From, to</source>
        <translation>Von, bis</translation>
    </message>
    <message>
        <source>Points</source>
        <translation>Punkte</translation>
    </message>
    <message>
        <source>Save and use</source>
        <translation>Speichern und verwenden</translation>
    </message>
    <message>
        <source>Check</source>
        <translation>Prüfen</translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation>Abbrechen</translation>
    </message>
    <message>
        <source>nothing is wrong with it</source>
        <translation>alles in Ordnung</translation>
    </message>
    <message>
        <source>Save the instrument</source>
        <translation>Messgerät speichern</translation>
    </message>
    <message>
        <source>JSON files (*.json)</source>
        <translation>JSON-Dateien (*.json)</translation>
    </message>
    <message>
        <source>Copy what the certificate and the manual of the instrument say. Check names what is still missing.</source>
        <translation>Abschreiben, was Kalibrierschein und Handbuch des Messgeräts sagen. „Prüfen“ nennt, was noch fehlt.</translation>
    </message>
    <message>
        <source>number of the certificate</source>
        <translation>Nummer des Kalibrierscheins</translation>
    </message>
    <message>
        <source>temperature at the calibration</source>
        <translation>Temperatur bei der Kalibrierung</translation>
    </message>
    <message>
        <source>by how much a degree may move a reading</source>
        <translation>um wie viel ein Grad einen Messwert verschieben kann</translation>
    </message>
    <message>
        <source>warm-up time</source>
        <translation>Aufwärmzeit</translation>
    </message>
    <message>
        <source>Temperature</source>
        <translation>Temperatur</translation>
    </message>
    <message>
        <source>Warm-up</source>
        <translation>Aufwärmzeit</translation>
    </message>
</context>
<context>
    <name>JudgementModel</name>
    <message>
        <source>prescribed</source>
        <translation>verordnet</translation>
    </message>
    <message>
        <source>set</source>
        <translation>eingestellt</translation>
    </message>
    <message>
        <source>displayed</source>
        <translation>angezeigt</translation>
    </message>
    <message>
        <source>mean</source>
        <translation>Mittel</translation>
    </message>
    <message>
        <source>worst</source>
        <translation>ungünstigster</translation>
    </message>
    <message>
        <source>limits</source>
        <translation>Grenzen</translation>
    </message>
    <message>
        <source>verdict</source>
        <translation>Urteil</translation>
    </message>
    <message>
        <source>source of the limits</source>
        <translation>Quelle der Grenzen</translation>
    </message>
    <message>
        <source>cycles</source>
        <translation>Zyklen</translation>
    </message>
    <message>
        <source>U (95.45 %)</source>
        <translation>U (95,45 %)</translation>
    </message>
    <message>
        <source>k</source>
        <translation>k</translation>
    </message>
    <message>
        <source>ratio</source>
        <translation>Verhältnis</translation>
    </message>
    <message>
        <source>probability outside</source>
        <translation>Wahrsch. außerhalb</translation>
    </message>
    <message>
        <source>%1 in %2</source>
        <translation>%1 in %2</translation>
    </message>
    <message>
        <source>by hand</source>
        <translation>von Hand</translation>
    </message>
    <message>
        <source>quantity</source>
        <translation>Größe</translation>
    </message>
    <message>
        <source>prescribed %1</source>
        <translation>verordnet %1</translation>
    </message>
    <message>
        <source>set %1</source>
        <translation>eingestellt %1</translation>
    </message>
    <message>
        <source>displayed %1</source>
        <translation>angezeigt %1</translation>
    </message>
    <message>
        <source>so far %1, %2 of %3</source>
        <translation>bisher %1, %2 von %3</translation>
    </message>
</context>
<context>
    <name>KnownUnit</name>
    <message>
        <source>what the register knows of this unit</source>
        <translation>was das Register von diesem Gerät weiß</translation>
    </message>
    <message>
        <source>Last visit %1: %2%3</source>
        <translation>Letzte Prüfung %1: %2%3</translation>
    </message>
    <message>
        <source>Due %1.</source>
        <translation>Fällig am %1.</translation>
    </message>
</context>
<context>
    <name>LadderPanel</name>
    <message>
        <source>%1 set %2: mean %3 %6, error %4 (U %5), %7</source>
        <translation>%1 eingestellt %2: Mittel %3 %6, Abweichung %4 (U %5), %7</translation>
    </message>
    <message>
        <source>%1: error against setting</source>
        <translation>%1: Abweichung über der Einstellung</translation>
    </message>
    <message>
        <source>set, %1</source>
        <translation>eingestellt, %1</translation>
    </message>
    <message>
        <source>error, %1</source>
        <translation>Abweichung, %1</translation>
    </message>
    <message>
        <source>Ladder: %1, preset &apos;%2&apos;</source>
        <translation>Stufenreihe: %1, Programm „%2“</translation>
    </message>
    <message>
        <source>straight line through the settings</source>
        <translation>Gerade durch die Einstellungen</translation>
    </message>
    <message>
        <source>settings of the ladder</source>
        <translation>Einstellungen der Stufenreihe</translation>
    </message>
    <message>
        <source>leak test and strength</source>
        <translation>Lecktest und Leistung</translation>
    </message>
</context>
<context>
    <name>LimitStrips</name>
    <message>
        <source>worst value against its limits, with U</source>
        <translation>ungünstigster Wert und seine Grenzen, mit U</translation>
    </message>
</context>
<context>
    <name>LineForm</name>
    <message>
        <source>baud</source>
        <translation>Baud</translation>
    </message>
    <message>
        <source>data bits</source>
        <translation>Datenbits</translation>
    </message>
    <message>
        <source>stop bits</source>
        <translation>Stoppbits</translation>
    </message>
    <message>
        <source>parity</source>
        <translation>Parität</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>even</source>
        <translation>gerade</translation>
    </message>
    <message>
        <source>odd</source>
        <translation>ungerade</translation>
    </message>
    <message>
        <source>DTR on</source>
        <translation>DTR ein</translation>
    </message>
    <message>
        <source>RTS on</source>
        <translation>RTS ein</translation>
    </message>
    <message>
        <source>settling time after opening</source>
        <translation>Beruhigungszeit nach dem Öffnen</translation>
    </message>
    <message>
        <source>s</source>
        <translation>s</translation>
    </message>
    <message>
        <source>sent after opening; \r and \n stand for the line end</source>
        <translation>nach dem Öffnen gesendet; \r und \n stehen für das Zeilenende</translation>
    </message>
    <message>
        <source>sent before closing</source>
        <translation>vor dem Schließen gesendet</translation>
    </message>
    <message>
        <source>Baud, data bits</source>
        <translation>Baud, Datenbits</translation>
    </message>
    <message>
        <source>Parity, stop bits</source>
        <translation>Parität, Stoppbits</translation>
    </message>
    <message>
        <source>Control lines, settling</source>
        <translation>Steuerleitungen, Beruhigung</translation>
    </message>
    <message>
        <source>Start and stop text</source>
        <translation>Start- und Stopptext</translation>
    </message>
    <message>
        <source>language of the instrument</source>
        <translation>Sprache des Messgeräts</translation>
    </message>
    <message>
        <source>sends lines with numbers</source>
        <translation>sendet Zeilen mit Zahlen</translation>
    </message>
    <message>
        <source>answers a query (SCPI)</source>
        <translation>antwortet auf Anfrage (SCPI)</translation>
    </message>
    <message>
        <source>answers a query with a line</source>
        <translation>antwortet auf Anfrage mit einer Zeile</translation>
    </message>
    <message>
        <source>query that a line answers</source>
        <translation>Anfrage, auf die eine Zeile antwortet</translation>
    </message>
    <message>
        <source>holds registers (Modbus RTU)</source>
        <translation>liefert Register (Modbus RTU)</translation>
    </message>
    <message>
        <source>unit of the reading</source>
        <translation>Einheit des Messwerts</translation>
    </message>
    <message>
        <source>longest wait for an answer</source>
        <translation>längstes Warten auf Antwort</translation>
    </message>
    <message>
        <source>Language</source>
        <translation>Sprache</translation>
    </message>
    <message>
        <source>Unit, longest wait</source>
        <translation>Einheit, längstes Warten</translation>
    </message>
    <message>
        <source>field with the pressure, from 1</source>
        <translation>Feld mit dem Druck, ab 1</translation>
    </message>
    <message>
        <source>what separates fields</source>
        <translation>was Felder trennt</translation>
    </message>
    <message>
        <source>decimal mark</source>
        <translation>Dezimalzeichen</translation>
    </message>
    <message>
        <source>point</source>
        <translation>Punkt</translation>
    </message>
    <message>
        <source>comma</source>
        <translation>Komma</translation>
    </message>
    <message>
        <source>field with the count</source>
        <translation>Feld mit der Zählung</translation>
    </message>
    <message>
        <source>field with the time</source>
        <translation>Feld mit der Zeit</translation>
    </message>
    <message>
        <source>Field, separator, mark</source>
        <translation>Feld, Trenner, Zeichen</translation>
    </message>
    <message>
        <source>Fields of count and time</source>
        <translation>Felder für Zählung und Zeit</translation>
    </message>
    <message>
        <source>query</source>
        <translation>Anfrage</translation>
    </message>
    <message>
        <source>Query</source>
        <translation>Anfrage</translation>
    </message>
    <message>
        <source>unit address</source>
        <translation>Geräteadresse</translation>
    </message>
    <message>
        <source>function, 3 or 4</source>
        <translation>Funktion, 3 oder 4</translation>
    </message>
    <message>
        <source>first register, from 0</source>
        <translation>erstes Register, ab 0</translation>
    </message>
    <message>
        <source>type of the value</source>
        <translation>Art des Werts</translation>
    </message>
    <message>
        <source>low word first</source>
        <translation>niederwertiges Wort zuerst</translation>
    </message>
    <message>
        <source>factor on the register&apos;s value</source>
        <translation>Faktor auf den Registerwert</translation>
    </message>
    <message>
        <source>added to the scaled value</source>
        <translation>zum Wert addiert</translation>
    </message>
    <message>
        <source>Address, function, register</source>
        <translation>Adresse, Funktion, Register</translation>
    </message>
    <message>
        <source>Type</source>
        <translation>Art</translation>
    </message>
    <message>
        <source>Factor, offset</source>
        <translation>Faktor, Versatz</translation>
    </message>
</context>
<context>
    <name>ListenPanel</name>
    <message>
        <source>what comes from the instrument</source>
        <translation>was vom Messgerät kommt</translation>
    </message>
    <message>
        <source>settings that fit</source>
        <translation>passende Einstellungen</translation>
    </message>
    <message>
        <source>Listen</source>
        <translation>Mithören</translation>
    </message>
    <message>
        <source>Find settings</source>
        <translation>Einstellungen suchen</translation>
    </message>
    <message>
        <source>Take these settings</source>
        <translation>Diese Einstellungen nehmen</translation>
    </message>
    <message>
        <source>Stop listening</source>
        <translation>Mithören beenden</translation>
    </message>
    <message>
        <source>Stop searching</source>
        <translation>Suche beenden</translation>
    </message>
    <message>
        <source>The virtual bench speaks as the instrument file says: there is nothing to find out.</source>
        <translation>Der virtuelle Prüfplatz spricht, wie die Messgerätedatei sagt: da gibt es nichts herauszufinden.</translation>
    </message>
    <message>
        <source>No byte has come yet: is the cable in, is the instrument on, does it need a start text, DTR or RTS?</source>
        <translation>Noch kam kein Byte: steckt das Kabel, ist das Messgerät an, braucht es einen Starttext, DTR oder RTS?</translation>
    </message>
    <message>
        <source>%1 bytes have come, but none of them reads as a pressure: are baud, parity, field, separator and unit right?</source>
        <translation>%1 Bytes sind gekommen, aber keines liest sich als Druck: stimmen Baudrate, Parität, Feld, Trenner und Einheit?</translation>
    </message>
    <message>
        <source>%1 cmH2O, %2 Hz, lost %3, unreadable bytes %4</source>
        <translation>%1 cmH2O, %2 Hz, verloren %3, unlesbare Bytes %4</translation>
    </message>
    <message>
        <source>%1 baud: %2</source>
        <translation>%1 Baud: %2</translation>
    </message>
</context>
<context>
    <name>LongPage</name>
    <message>
        <source>this page goes on below</source>
        <translation>diese Seite geht unten weiter</translation>
    </message>
    <message>
        <source>▾ goes on below</source>
        <translation>▾ geht unten weiter</translation>
    </message>
</context>
<context>
    <name>MainWindow</name>
    <message>
        <source>Zeroline</source>
        <translation>Zeroline</translation>
    </message>
    <message>
        <source>Mute sounds</source>
        <translation>Ton stummschalten</translation>
    </message>
    <message>
        <source>closing</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>A run is going on. Closing ends it; what was captured is kept. Is the unit back as it must be?</source>
        <translation>Eine Prüfung läuft. Schließen beendet sie; das bisher Aufgezeichnete bleibt. Ist das Gerät zurück, wie es sein muss?</translation>
    </message>
    <message>
        <source>Stay</source>
        <translation>Bleiben</translation>
    </message>
    <message>
        <source>what holds for all of this</source>
        <translation>was für all das gilt</translation>
    </message>
    <message>
        <source>colours of the window</source>
        <translation>Farben des Fensters</translation>
    </message>
    <message>
        <source>Light</source>
        <translation>Hell</translation>
    </message>
    <message>
        <source>Dark</source>
        <translation>Dunkel</translation>
    </message>
    <message>
        <source>High contrast</source>
        <translation>Hoher Kontrast</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>Nobody has signed this run: it is no record. It is kept, and can be opened and signed later.</source>
        <translation>Niemand hat diese Prüfung unterschrieben: sie ist kein Protokoll. Sie bleibt erhalten und kann später geöffnet und unterschrieben werden.</translation>
    </message>
    <message>
        <source>Colours: desktop</source>
        <translation>Farben: System</translation>
    </message>
    <message>
        <source>Bench  [Ctrl+1]</source>
        <translation>Prüfplatz  [Strg+1]</translation>
    </message>
    <message>
        <source>Register  [Ctrl+2]</source>
        <translation>Register  [Strg+2]</translation>
    </message>
    <message>
        <source>Help</source>
        <translation>Hilfe</translation>
    </message>
</context>
<context>
    <name>NumberCards</name>
    <message>
        <source>numbers that are out of sight</source>
        <translation>Zahlen außer Sicht</translation>
    </message>
    <message>
        <source>▾ %1 more below</source>
        <translation>▾ %1 weitere unten</translation>
    </message>
</context>
<context>
    <name>NumbersTable</name>
    <message>
        <source>no room for: %1</source>
        <translation>kein Platz für: %1</translation>
    </message>
</context>
<context>
    <name>OnceMore</name>
    <message>
        <source>Once more</source>
        <translation>Noch einmal</translation>
    </message>
    <message>
        <source>what was done to the unit</source>
        <translation>was am Gerät getan wurde</translation>
    </message>
    <message>
        <source>As-left run</source>
        <translation>Prüfung nach Justierung</translation>
    </message>
    <message>
        <source>after an authorised adjustment: this run stays as the as-found one</source>
        <translation>nach einer Justierung durch Befugte: diese Prüfung bleibt als vorgefundener Zustand</translation>
    </message>
    <message>
        <source>After an adjustment:</source>
        <translation>Nach einer Justierung:</translation>
    </message>
    <message>
        <source>what was wrong with the set-up</source>
        <translation>was am Aufbau falsch war</translation>
    </message>
    <message>
        <source>zero</source>
        <translation>Nullpunkt</translation>
    </message>
    <message>
        <source>plug</source>
        <translation>Stopfen</translation>
    </message>
    <message>
        <source>hose</source>
        <translation>Schlauch</translation>
    </message>
    <message>
        <source>instrument</source>
        <translation>Messgerät</translation>
    </message>
    <message>
        <source>what shows that the set-up was at fault</source>
        <translation>was den Fehler im Aufbau belegt</translation>
    </message>
    <message>
        <source>Run again</source>
        <translation>Noch einmal prüfen</translation>
    </message>
    <message>
        <source>the set-up was at fault: the new run stands in place of this one</source>
        <translation>der Aufbau war die Ursache: die neue Prüfung tritt an die Stelle dieser</translation>
    </message>
    <message>
        <source>At fault:</source>
        <translation>Ursache war:</translation>
    </message>
    <message>
        <source>Sign and save the as-found run first, and say what was done to the unit since.</source>
        <translation>Erst den vorgefundenen Zustand unterschreiben und speichern und angeben, was seither am Gerät getan wurde.</translation>
    </message>
    <message>
        <source>Say what shows that the set-up was at fault: a later run replaces this one only with its evidence.</source>
        <translation>Angeben, was den Fehler im Aufbau zeigt: eine spätere Prüfung ersetzt diese nur mit Beleg.</translation>
    </message>
</context>
<context>
    <name>OrderForm</name>
    <message>
        <source>work order</source>
        <translation>Auftrag</translation>
    </message>
    <message>
        <source>Tolerances; what is left out falls back to the house profile</source>
        <translation>Toleranzen; was fehlt, kommt aus dem Hausprofil</translation>
    </message>
    <message>
        <source>what is wrong with the order</source>
        <translation>was am Auftrag nicht stimmt</translation>
    </message>
    <message>
        <source>number of the work order</source>
        <translation>Nummer des Auftrags</translation>
    </message>
    <message>
        <source>occasion</source>
        <translation>Anlass</translation>
    </message>
    <message>
        <source>customer</source>
        <translation>Kunde</translation>
    </message>
    <message>
        <source>whom to call</source>
        <translation>wer anzurufen ist</translation>
    </message>
    <message>
        <source>asset of the unit</source>
        <translation>Inventarnummer des Geräts</translation>
    </message>
    <message>
        <source>serial number of the unit</source>
        <translation>Seriennummer des Geräts</translation>
    </message>
    <message>
        <source>model of the unit</source>
        <translation>Modell des Geräts</translation>
    </message>
    <message>
        <source>hours on the unit&apos;s counter</source>
        <translation>Stunden auf dem Zähler des Geräts</translation>
    </message>
    <message>
        <source>h</source>
        <translation>h</translation>
    </message>
    <message>
        <source>step of the unit&apos;s display</source>
        <translation>Stufe der Geräteanzeige</translation>
    </message>
    <message>
        <source>cmH2O</source>
        <translation>cmH2O</translation>
    </message>
    <message>
        <source>reference of the prescription</source>
        <translation>Zeichen der Verordnung</translation>
    </message>
    <message>
        <source>date of the prescription, YYYY-MM-DD</source>
        <translation>Datum der Verordnung, JJJJ-MM-TT</translation>
    </message>
    <message>
        <source>YYYY-MM-DD</source>
        <translation>JJJJ-MM-TT</translation>
    </message>
    <message>
        <source>Order and unit</source>
        <translation>Auftrag und Gerät</translation>
    </message>
    <message>
        <source>Work order</source>
        <translation>Auftrag</translation>
    </message>
    <message>
        <source>Customer</source>
        <translation>Kunde</translation>
    </message>
    <message>
        <source>Whom to call</source>
        <translation>Anzurufen</translation>
    </message>
    <message>
        <source>Asset, serial number</source>
        <translation>Inventar-, Seriennummer</translation>
    </message>
    <message>
        <source>Model</source>
        <translation>Modell</translation>
    </message>
    <message>
        <source>Hours, display step</source>
        <translation>Stunden, Anzeigestufe</translation>
    </message>
    <message>
        <source>Prescription</source>
        <translation>Verordnung</translation>
    </message>
    <message>
        <source>presets</source>
        <translation>Programme</translation>
    </message>
    <message>
        <source>Add a preset</source>
        <translation>Programm hinzufügen</translation>
    </message>
    <message>
        <source>Remove this preset</source>
        <translation>Dieses Programm entfernen</translation>
    </message>
    <message>
        <source>preset %1</source>
        <translation>Programm %1</translation>
    </message>
    <message>
        <source>decision rule</source>
        <translation>Entscheidungsregel</translation>
    </message>
    <message>
        <source>simple acceptance</source>
        <translation>einfache Akzeptanz</translation>
    </message>
    <message>
        <source>guarded acceptance, by the uncertainty</source>
        <translation>Akzeptanz mit Schutzabstand in Höhe der Unsicherheit</translation>
    </message>
    <message>
        <source>cycles to judge</source>
        <translation>zu beurteilende Zyklen</translation>
    </message>
    <message>
        <source>cycles before them that are not judged</source>
        <translation>Zyklen davor, die nicht beurteilt werden</translation>
    </message>
    <message>
        <source>Judgement</source>
        <translation>Beurteilung</translation>
    </message>
    <message>
        <source>Rule</source>
        <translation>Regel</translation>
    </message>
    <message>
        <source>Cycles, lead cycles</source>
        <translation>Zyklen, Vorlauf</translation>
    </message>
    <message>
        <source>Save and use</source>
        <translation>Speichern und verwenden</translation>
    </message>
    <message>
        <source>Check</source>
        <translation>Prüfen</translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation>Abbrechen</translation>
    </message>
    <message>
        <source>nothing is wrong with it</source>
        <translation>alles in Ordnung</translation>
    </message>
    <message>
        <source>Save the order</source>
        <translation>Auftrag speichern</translation>
    </message>
    <message>
        <source>JSON files (*.json)</source>
        <translation>JSON-Dateien (*.json)</translation>
    </message>
    <message>
        <source>Copy what the order says. Check names what is still missing.</source>
        <translation>Abschreiben, was der Auftrag sagt. „Prüfen“ nennt, was noch fehlt.</translation>
    </message>
    <message>
        <source>whose unit it is, or why that is not said</source>
        <translation>wem das Gerät gehört, oder warum das offen bleibt</translation>
    </message>
    <message>
        <source>whom a person calls who is left without a working unit</source>
        <translation>wen anruft, wer ohne funktionierendes Gerät bleibt</translation>
    </message>
    <message>
        <source>on the label of the unit</source>
        <translation>auf dem Schild des Geräts</translation>
    </message>
    <message>
        <source>serial number</source>
        <translation>Seriennummer</translation>
    </message>
    <message>
        <source>number of the prescription</source>
        <translation>Nummer der Verordnung</translation>
    </message>
</context>
<context>
    <name>OverlayChart</name>
    <message>
        <source>all cycles and their median</source>
        <translation>alle Zyklen und ihr Median</translation>
    </message>
    <message>
        <source>Plus and minus zoom, arrow keys move, Home shows all.</source>
        <translation>Plus und Minus zoomen, Pfeiltasten schieben, Pos1 zeigt alles.</translation>
    </message>
    <message>
        <source>median at %1 s: %2 cmH2O</source>
        <translation>Median bei %1 s: %2 cmH2O</translation>
    </message>
    <message>
        <source>seconds from the onset of insufflation</source>
        <translation>Sekunden ab Beginn der Insufflation</translation>
    </message>
    <message>
        <source>cmH2O</source>
        <translation>cmH2O</translation>
    </message>
    <message>
        <source>each cycle</source>
        <translation>jeder Zyklus</translation>
    </message>
    <message>
        <source>not judged</source>
        <translation>nicht beurteilt</translation>
    </message>
    <message>
        <source>median</source>
        <translation>Median</translation>
    </message>
    <message>
        <source>visit before</source>
        <translation>Prüfung davor</translation>
    </message>
</context>
<context>
    <name>PassphraseDialog</name>
    <message>
        <source>Key of this bench</source>
        <translation>Schlüssel dieses Prüfplatzes</translation>
    </message>
    <message>
        <source>Passphrase of the key in %1:</source>
        <translation>Kennwort des Schlüssels in %1:</translation>
    </message>
</context>
<context>
    <name>PlotView</name>
    <message>
        <source>Show all</source>
        <translation>Alles zeigen</translation>
    </message>
    <message>
        <source>Save as a picture...</source>
        <translation>Als Bild sichern ...</translation>
    </message>
    <message>
        <source>Save as a picture</source>
        <translation>Als Bild sichern</translation>
    </message>
    <message>
        <source>PNG pictures (*.png)</source>
        <translation>PNG-Bilder (*.png)</translation>
    </message>
</context>
<context>
    <name>PortChoice</name>
    <message>
        <source>port</source>
        <translation>Anschluss</translation>
    </message>
    <message>
        <source>port, chosen or typed</source>
        <translation>Anschluss, gewählt oder getippt</translation>
    </message>
    <message>
        <source>choose the port</source>
        <translation>Anschluss wählen</translation>
    </message>
    <message>
        <source>why the run cannot begin yet</source>
        <translation>warum die Prüfung noch nicht beginnen kann</translation>
    </message>
    <message>
        <source>Begin waits for a port: choose that of the instrument, or the virtual bench, which needs none.</source>
        <translation>Der Beginn wartet auf einen Anschluss: den des Messgeräts wählen, oder den virtuellen Prüfplatz, der keinen braucht.</translation>
    </message>
    <message>
        <source>Begin waits for %1, which is not there: plug the instrument in, or choose another port.</source>
        <translation>Der Beginn wartet auf %1; das ist nicht da: Messgerät einstecken oder einen anderen Anschluss wählen.</translation>
    </message>
</context>
<context>
    <name>PortsModel</name>
    <message>
        <source>virtual bench (simulated, no hardware)</source>
        <translation>virtueller Prüfplatz (simuliert, ohne Hardware)</translation>
    </message>
    <message>
        <source>%1 – %2</source>
        <translation>%1 – %2</translation>
    </message>
    <message>
        <source>missing</source>
        <translation>fehlt</translation>
    </message>
</context>
<context>
    <name>PracticePage</name>
    <message>
        <source>what was it?</source>
        <translation>was war es?</translation>
    </message>
    <message>
        <source>question</source>
        <translation>Frage</translation>
    </message>
    <message>
        <source>What was it?</source>
        <translation>Was war es?</translation>
    </message>
    <message>
        <source>how to answer</source>
        <translation>wie geantwortet wird</translation>
    </message>
    <message>
        <source>Choose what you have seen; then the result and what it was are shown.</source>
        <translation>Wählen, was zu sehen war; dann erscheinen das Ergebnis und was es war.</translation>
    </message>
    <message>
        <source>what it may have been</source>
        <translation>was es gewesen sein kann</translation>
    </message>
    <message>
        <source>That is it  [Enter]</source>
        <translation>Das ist es  [Eingabe]</translation>
    </message>
</context>
<context>
    <name>PresetForm</name>
    <message>
        <source>name of the preset</source>
        <translation>Name des Programms</translation>
    </message>
    <message>
        <source>insufflation pressure in cmH2O</source>
        <translation>Insufflationsdruck in cmH2O</translation>
    </message>
    <message>
        <source>exsufflation pressure in cmH2O</source>
        <translation>Exsufflationsdruck in cmH2O</translation>
    </message>
    <message>
        <source>insufflation duration in s</source>
        <translation>Insufflationsdauer in s</translation>
    </message>
    <message>
        <source>exsufflation duration in s</source>
        <translation>Exsufflationsdauer in s</translation>
    </message>
    <message>
        <source>pause duration in s</source>
        <translation>Pausendauer in s</translation>
    </message>
    <message>
        <source>pause pressure in cmH2O</source>
        <translation>Pausendruck in cmH2O</translation>
    </message>
    <message>
        <source>cmH2O</source>
        <translation>cmH2O</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Insufflation: cmH2O, s</source>
        <translation>Insufflation: cmH2O, s</translation>
    </message>
    <message>
        <source>Exsufflation: cmH2O, s</source>
        <translation>Exsufflation: cmH2O, s</translation>
    </message>
    <message>
        <source>Pause: level, s</source>
        <translation>Pause: Druck, s</translation>
    </message>
    <message>
        <source>flow</source>
        <translation>Flow</translation>
    </message>
    <message>
        <source>not prescribed</source>
        <translation>nicht verordnet</translation>
    </message>
    <message>
        <source>full</source>
        <translation>voll</translation>
    </message>
    <message>
        <source>reduced</source>
        <translation>vermindert</translation>
    </message>
    <message>
        <source>breath trigger</source>
        <translation>Atemtrigger</translation>
    </message>
    <message>
        <source>on</source>
        <translation>an</translation>
    </message>
    <message>
        <source>off</source>
        <translation>aus</translation>
    </message>
    <message>
        <source>Flow</source>
        <translation>Flow</translation>
    </message>
    <message>
        <source>Breath trigger</source>
        <translation>Atemtrigger</translation>
    </message>
    <message>
        <source>with oscillation</source>
        <translation>mit Oszillation</translation>
    </message>
    <message>
        <source>oscillation frequency</source>
        <translation>Oszillationsfrequenz</translation>
    </message>
    <message>
        <source>Hz</source>
        <translation>Hz</translation>
    </message>
    <message>
        <source>oscillation amplitude, zero to peak</source>
        <translation>Oszillationsamplitude, null bis Spitze</translation>
    </message>
    <message>
        <source>oscillation in which phase</source>
        <translation>Oszillation in welcher Phase</translation>
    </message>
    <message>
        <source>in both phases</source>
        <translation>in beiden Phasen</translation>
    </message>
    <message>
        <source>in insufflation</source>
        <translation>in der Insufflation</translation>
    </message>
    <message>
        <source>in exsufflation</source>
        <translation>in der Exsufflation</translation>
    </message>
    <message>
        <source>in series</source>
        <translation>in Serien</translation>
    </message>
    <message>
        <source>cycles of a series</source>
        <translation>Zyklen einer Serie</translation>
    </message>
    <message>
        <source>cycles</source>
        <translation>Zyklen</translation>
    </message>
    <message>
        <source>how many series</source>
        <translation>wie viele Serien</translation>
    </message>
    <message>
        <source>times</source>
        <translation>mal</translation>
    </message>
    <message>
        <source>rest between series</source>
        <translation>Ruhe zwischen Serien</translation>
    </message>
    <message>
        <source>s rest</source>
        <translation>s Ruhe</translation>
    </message>
    <message>
        <source>as the unit names it, such as day</source>
        <translation>wie das Gerät es nennt, etwa Tag</translation>
    </message>
</context>
<context>
    <name>Procedure</name>
    <message>
        <source>Does the outlet sit tight, without a multiple socket?</source>
        <translation>Sitzt die Steckdose fest, ohne Mehrfachsteckdose?</translation>
    </message>
    <message>
        <source>Is the intake filter in, clean and in date?</source>
        <translation>Ist der Ansaugfilter eingesetzt, sauber und nicht abgelaufen?</translation>
    </message>
    <message>
        <source>Look at the person&apos;s own hose: no crack, no water, cuffs tight?</source>
        <translation>Den eigenen Schlauch der Person ansehen: kein Riss, kein Wasser, Muffen dicht?</translation>
    </message>
    <message>
        <source>Does the unit stand on a hard surface, with its air inlet free?</source>
        <translation>Steht das Gerät auf einer harten Fläche, der Lufteinlass frei?</translation>
    </message>
    <message>
        <source>Look at the case before anything is cleaned: whole, no loose part?</source>
        <translation>Das Gehäuse ansehen, bevor etwas gereinigt wird: ganz, kein loses Teil?</translation>
    </message>
    <message>
        <source>Look at mains cord and plug: no cut, no loose pin?</source>
        <translation>Netzleitung und Stecker ansehen: kein Schnitt, kein loser Stift?</translation>
    </message>
    <message>
        <source>Look at the filters: in, clean, changed when due?</source>
        <translation>Die Filter ansehen: eingesetzt, sauber, rechtzeitig gewechselt?</translation>
    </message>
    <message>
        <source>Look at seals and cuffs: no crack, no hardened rubber?</source>
        <translation>Dichtungen und Muffen ansehen: kein Riss, kein verhärteter Gummi?</translation>
    </message>
    <message>
        <source>Look at the hose: no crack, cuffs tight?</source>
        <translation>Den Schlauch ansehen: kein Riss, Muffen dicht?</translation>
    </message>
    <message>
        <source>Tested by a qualified person, to local rules: is the report there, with tester, method and class, and is it in order?</source>
        <translation>Von einer Fachkraft nach örtlichen Regeln geprüft: liegt der Bericht vor, mit Prüfgerät, Verfahren und Schutzklasse, und ist er in Ordnung?</translation>
    </message>
    <message>
        <source>Try the alarms as the unit&apos;s service documentation says: do they sound?</source>
        <translation>Die Alarme prüfen, wie die Serviceunterlagen des Geräts es sagen: ertönen sie?</translation>
    </message>
    <message>
        <source>Has the battery been run down as the service documentation says, and did it last? Not applicable where it was not done.</source>
        <translation>Wurde der Akku entladen, wie die Serviceunterlagen es sagen, und hat er gehalten? Trifft nicht zu, wo das nicht geschah.</translation>
    </message>
    <message>
        <source>Read the prescription back from the unit&apos;s screen: is it complete?</source>
        <translation>Die Verordnung vom Display des Geräts ablesen: ist sie vollständig?</translation>
    </message>
    <message>
        <source>Look at the case: whole, clean, no loose part?</source>
        <translation>Das Gehäuse ansehen: ganz, sauber, kein loses Teil?</translation>
    </message>
    <message>
        <source>Does the outlet fit the protection class on the type label?</source>
        <translation>Passt die Steckdose zur Schutzklasse auf dem Typenschild?</translation>
    </message>
    <message>
        <source>Look at the hose that is delivered: no crack, cuffs tight?</source>
        <translation>Den Schlauch ansehen, der mitgeliefert wird: kein Riss, Muffen dicht?</translation>
    </message>
    <message>
        <source>Is the interface of the prescription there, in its size?</source>
        <translation>Liegt die verordnete Maske oder das Mundstück bei, in der richtigen Größe?</translation>
    </message>
    <message>
        <source>Is the label with the asset number on the unit, and readable?</source>
        <translation>Ist das Schild mit der Inventarnummer am Gerät und lesbar?</translation>
    </message>
    <message>
        <source>Does the unit&apos;s clock show the right time?</source>
        <translation>Zeigt die Uhr des Geräts die richtige Zeit?</translation>
    </message>
    <message>
        <source>Take the mains lead out and hold each phase: does the unit reach the same pressures within 2 cmH2O? Put the lead in again.</source>
        <translation>Den Netzstecker ziehen und jede Phase halten: erreicht das Gerät dieselben Drücke bis auf 2 cmH2O? Den Stecker wieder einstecken.</translation>
    </message>
    <message>
        <source>Stop the unit, face away, open the plug and start it: does the alarm sound? Stop it and shut the plug.</source>
        <translation>Das Gerät anhalten, sich abwenden, den Stopfen öffnen und es starten: ertönt der Alarm? Anhalten und den Stopfen schließen.</translation>
    </message>
    <message>
        <source>The settings as found are copied: are the data of the previous user erased? Never where an incident is suspected.</source>
        <translation>Die vorgefundenen Einstellungen sind abgeschrieben: sind die Daten des vorigen Nutzers gelöscht? Nie, wo ein Vorfall vermutet wird.</translation>
    </message>
</context>
<context>
    <name>ProcedureChoice</name>
    <message>
        <source>procedure</source>
        <translation>Ablauf</translation>
    </message>
    <message>
        <source>as this bench does it</source>
        <translation>wie dieser Prüfplatz es macht</translation>
    </message>
    <message>
        <source>guided: the run alone</source>
        <translation>geführt: nur die Prüfung</translation>
    </message>
    <message>
        <source>before delivery</source>
        <translation>vor der Auslieferung</translation>
    </message>
    <message>
        <source>periodic check</source>
        <translation>wiederkehrende Prüfung</translation>
    </message>
    <message>
        <source>home visit</source>
        <translation>Hausbesuch</translation>
    </message>
    <message>
        <source>Choose...</source>
        <translation>Wählen...</translation>
    </message>
    <message>
        <source>choose the file of a procedure</source>
        <translation>Datei eines Ablaufs wählen</translation>
    </message>
    <message>
        <source>A procedure</source>
        <translation>Ein Ablauf</translation>
    </message>
    <message>
        <source>The guided run: zero, plug, manual, automatic, zero again, hand back.</source>
        <translation>Die geführte Prüfung: Nullpunkt, Verschließen, Manuell, Automatik, Nullpunkt erneut, Rückgabe.</translation>
    </message>
    <message>
        <source>%1, revision %2; items asked about: %3</source>
        <translation>%1, Fassung %2; abgefragte Punkte: %3</translation>
    </message>
</context>
<context>
    <name>QuestionPanel</name>
    <message>
        <source>%1 to %2 (%3)</source>
        <translation>%1 bis %2 (%3)</translation>
    </message>
    <message>
        <source>at least %1 (%2)</source>
        <translation>mindestens %1 (%2)</translation>
    </message>
    <message>
        <source>at most %1 (%2)</source>
        <translation>höchstens %1 (%2)</translation>
    </message>
    <message>
        <source>what the procedure asks</source>
        <translation>was der Ablauf fragt</translation>
    </message>
    <message>
        <source>what is asked about</source>
        <translation>wonach gefragt wird</translation>
    </message>
    <message>
        <source>limits</source>
        <translation>Grenzen</translation>
    </message>
    <message>
        <source>what is missing</source>
        <translation>was fehlt</translation>
    </message>
    <message>
        <source>unit of the value</source>
        <translation>Einheit des Werts</translation>
    </message>
    <message>
        <source>value that was measured</source>
        <translation>gemessener Wert</translation>
    </message>
    <message>
        <source>remark</source>
        <translation>Bemerkung</translation>
    </message>
    <message>
        <source>remark; or why it does not apply</source>
        <translation>Bemerkung; oder warum es nicht zutrifft</translation>
    </message>
    <message>
        <source>Not in order  [N]</source>
        <translation>Nicht in Ordnung  [N]</translation>
    </message>
    <message>
        <source>Take this value  [Enter]</source>
        <translation>Diesen Wert nehmen  [Eingabe]</translation>
    </message>
    <message>
        <source>In order  [Space]</source>
        <translation>In Ordnung  [Leertaste]</translation>
    </message>
    <message>
        <source>Not measured  [X]</source>
        <translation>Nicht gemessen  [X]</translation>
    </message>
    <message>
        <source>Does not apply  [X]</source>
        <translation>Trifft nicht zu  [X]</translation>
    </message>
    <message>
        <source>Say what is not in order, then Enter.</source>
        <translation>Bitte angeben, was nicht in Ordnung ist; dann die Eingabetaste.</translation>
    </message>
    <message>
        <source>Say why, then Enter.</source>
        <translation>Bitte angeben, warum; dann die Eingabetaste.</translation>
    </message>
    <message>
        <source>A number is expected, such as 0.12.</source>
        <translation>Erwartet wird eine Zahl, etwa 0,12.</translation>
    </message>
    <message>
        <source>That is outside the limits. Enter again if it stands.</source>
        <translation>Das liegt außerhalb der Grenzen. Noch einmal die Eingabetaste, wenn es stimmt.</translation>
    </message>
    <message>
        <source>Choose what it is: the remark goes with it.</source>
        <translation>Bitte wählen, was gilt: Die Bemerkung gehört dazu.</translation>
    </message>
</context>
<context>
    <name>Reason</name>
    <message>
        <source>The response of sensor and line is not stated: peak and overshoot are at least what is shown.</source>
        <translation>Die Ansprechzeit von Sensor und Leitung ist nicht angegeben: Spitze und Überschwingen sind mindestens wie gezeigt.</translation>
    </message>
    <message>
        <source>The uncertainty is larger than the tolerance: neither pass nor fail can be said.</source>
        <translation>Die Unsicherheit ist größer als die Toleranz: Es lässt sich weder „bestanden“ noch „nicht bestanden“ sagen.</translation>
    </message>
    <message>
        <source>The calibration was done after this run.</source>
        <translation>Die Kalibrierung ist jünger als diese Prüfung.</translation>
    </message>
    <message>
        <source>Nobody confirmed that the outlet was blocked.</source>
        <translation>Niemand bestätigte, dass der Ausgang verschlossen war.</translation>
    </message>
    <message>
        <source>Nobody confirmed that no patient was connected.</source>
        <translation>Niemand bestätigte, dass kein Patient angeschlossen war.</translation>
    </message>
    <message>
        <source>Nobody confirmed that the breath trigger was off.</source>
        <translation>Niemand bestätigte, dass der Atemtrigger aus war.</translation>
    </message>
    <message>
        <source>A preset was not run automatically.</source>
        <translation>Ein Programm wurde nicht in der Automatik geprüft.</translation>
    </message>
    <message>
        <source>There is no run log: what was done to the unit is not known; holds by hand may look like faults.</source>
        <translation>Es gibt kein Prüfjournal: was am Gerät getan wurde, ist nicht bekannt; Halten von Hand kann wie ein Fehler aussehen.</translation>
    </message>
    <message>
        <source>There is no instrument file: calibration and range are not known.</source>
        <translation>Es gibt keine Messgerätedatei: Kalibrierung und Bereich sind nicht bekannt.</translation>
    </message>
    <message>
        <source>There is no zero reading before the run.</source>
        <translation>Vor der Prüfung wurde der Nullpunkt nicht gemessen.</translation>
    </message>
    <message>
        <source>There is no zero reading after the run: the house limit of drift is used.</source>
        <translation>Nach der Prüfung wurde der Nullpunkt nicht gemessen: Es gilt die Hausgrenze der Drift.</translation>
    </message>
    <message>
        <source>It is not known when the run began.</source>
        <translation>Es ist nicht bekannt, wann die Prüfung begann.</translation>
    </message>
    <message>
        <source>The sampling rate is too low for some figures.</source>
        <translation>Die Abtastrate ist für einige Angaben zu niedrig.</translation>
    </message>
    <message>
        <source>A phase did not come.</source>
        <translation>Eine Phase blieb aus.</translation>
    </message>
    <message>
        <source>The pressure did not come back to the zero band.</source>
        <translation>Der Druck kam nicht ins Nullband zurück.</translation>
    </message>
    <message>
        <source>No oscillation was found although it is prescribed.</source>
        <translation>Keine Oszillation gefunden, obwohl verordnet.</translation>
    </message>
    <message>
        <source>Too few cycles could be judged.</source>
        <translation>Zu wenige Zyklen waren zu beurteilen.</translation>
    </message>
    <message>
        <source>Outside the limits.</source>
        <translation>Außerhalb der Grenzen.</translation>
    </message>
    <message>
        <source>Inside, but nearer to a limit than the uncertainty.</source>
        <translation>Innerhalb, aber einer Grenze näher, als die Unsicherheit groß ist.</translation>
    </message>
    <message>
        <source>The tolerance is less than four times the uncertainty.</source>
        <translation>Die Toleranz ist kleiner als das Vierfache der Unsicherheit.</translation>
    </message>
    <message>
        <source>What the unit displays was not read.</source>
        <translation>Die Anzeige des Geräts wurde nicht abgelesen.</translation>
    </message>
    <message>
        <source>The unit displays no measured pressure.</source>
        <translation>Das Gerät zeigt keinen gemessenen Druck.</translation>
    </message>
    <message>
        <source>House limits were used: no published source.</source>
        <translation>Hausgrenzen galten: keine veröffentlichte Quelle.</translation>
    </message>
    <message>
        <source>An item of the checklist is not in order.</source>
        <translation>Ein Punkt der Checkliste ist nicht in Ordnung.</translation>
    </message>
    <message>
        <source>The unit was not confirmed as given back as it must be.</source>
        <translation>Niemand bestätigte, dass das Gerät zurückgegeben wurde, wie es sein muss.</translation>
    </message>
    <message>
        <source>The unit was left neither as found nor as prescribed.</source>
        <translation>Das Gerät wurde weder wie vorgefunden noch wie verordnet hinterlassen.</translation>
    </message>
</context>
<context>
    <name>RegisterPlace</name>
    <message>
        <source>register of units</source>
        <translation>Register der Geräte</translation>
    </message>
    <message>
        <source>Due</source>
        <translation>Fällig</translation>
    </message>
    <message>
        <source>search for asset, serial number, model, record or order</source>
        <translation>nach Inventarnummer, Seriennummer, Modell, Protokoll oder Auftrag suchen</translation>
    </message>
    <message>
        <source>asset, serial number, model, record, order</source>
        <translation>Inventarnummer, Seriennummer, Modell, Protokoll, Auftrag</translation>
    </message>
    <message>
        <source>how far ahead</source>
        <translation>wie weit voraus</translation>
    </message>
    <message>
        <source>in 30 days</source>
        <translation>in 30 Tagen</translation>
    </message>
    <message>
        <source>in 90 days</source>
        <translation>in 90 Tagen</translation>
    </message>
    <message>
        <source>in a year</source>
        <translation>in einem Jahr</translation>
    </message>
    <message>
        <source>Export...</source>
        <translation>Exportieren ...</translation>
    </message>
    <message>
        <source>All units</source>
        <translation>Alle Geräte</translation>
    </message>
    <message>
        <source>Not signed</source>
        <translation>Nicht unterschrieben</translation>
    </message>
    <message>
        <source>Instruments</source>
        <translation>Messgeräte</translation>
    </message>
    <message>
        <source>list</source>
        <translation>Liste</translation>
    </message>
    <message>
        <source>about this list</source>
        <translation>zu dieser Liste</translation>
    </message>
    <message>
        <source>what stands here</source>
        <translation>was hier steht</translation>
    </message>
    <message>
        <source>Choose a unit: its visits, how its figures went, and its cycles stand here.</source>
        <translation>Ein Gerät wählen: hier stehen seine Prüfungen, der Verlauf seiner Werte und seine Zyklen.</translation>
    </message>
    <message>
        <source>one unit</source>
        <translation>ein Gerät</translation>
    </message>
    <message>
        <source>instrument</source>
        <translation>Messgerät</translation>
    </message>
    <message>
        <source>records made with this instrument</source>
        <translation>Protokolle mit diesem Messgerät</translation>
    </message>
    <message>
        <source>Records made with it</source>
        <translation>Protokolle mit diesem Messgerät</translation>
    </message>
    <message>
        <source>run that nobody has signed</source>
        <translation>Prüfung, die niemand unterschrieben hat</translation>
    </message>
    <message>
        <source>Open it to sign</source>
        <translation>Öffnen und unterschreiben</translation>
    </message>
    <message>
        <source>Looking...</source>
        <translation>Wird gesucht ...</translation>
    </message>
    <message>
        <source>asset</source>
        <translation>Inventarnummer</translation>
    </message>
    <message>
        <source>due</source>
        <translation>fällig</translation>
    </message>
    <message>
        <source>state</source>
        <translation>Zustand</translation>
    </message>
    <message>
        <source>last verdict</source>
        <translation>letztes Urteil</translation>
    </message>
    <message>
        <source>last visit</source>
        <translation>letzte Prüfung</translation>
    </message>
    <message>
        <source>model</source>
        <translation>Modell</translation>
    </message>
    <message>
        <source>serial number</source>
        <translation>Seriennummer</translation>
    </message>
    <message>
        <source>origin</source>
        <translation>Herkunft</translation>
    </message>
    <message>
        <source>visits</source>
        <translation>Prüfungen</translation>
    </message>
    <message>
        <source>run</source>
        <translation>Prüfung</translation>
    </message>
    <message>
        <source>folder</source>
        <translation>Ordner</translation>
    </message>
    <message>
        <source>calibration due</source>
        <translation>Kalibrierung fällig</translation>
    </message>
    <message>
        <source>certificate</source>
        <translation>Kalibrierschein</translation>
    </message>
    <message>
        <source>records</source>
        <translation>Protokolle</translation>
    </message>
    <message>
        <source>Nothing here.</source>
        <translation>Hier ist nichts.</translation>
    </message>
    <message>
        <source>%1 in this list.</source>
        <translation>%1 in dieser Liste.</translation>
    </message>
    <message>
        <source>day</source>
        <translation>Tag</translation>
    </message>
    <message>
        <source>verdict</source>
        <translation>Urteil</translation>
    </message>
    <message>
        <source>order</source>
        <translation>Auftrag</translation>
    </message>
    <message>
        <source>signed by</source>
        <translation>unterschrieben von</translation>
    </message>
    <message>
        <source>Export the list</source>
        <translation>Liste exportieren</translation>
    </message>
    <message>
        <source>comma-separated values (*.csv)</source>
        <translation>durch Komma getrennte Werte (*.csv)</translation>
    </message>
    <message>
        <source>Written to %1.</source>
        <translation>Nach %1 geschrieben.</translation>
    </message>
    <message>
        <source>%1 could not be written: %2.</source>
        <translation>%1 konnte nicht geschrieben werden: %2.</translation>
    </message>
    <message>
        <source>what makes it suspected</source>
        <translation>was es verdächtig macht</translation>
    </message>
    <message>
        <source>Over its calibrations and checks, as found</source>
        <translation>Über Kalibrierungen und Kontrollen, wie vorgefunden</translation>
    </message>
    <message>
        <source>No calibration with points and no check against a second gauge is registered: nothing is said about drift.</source>
        <translation>Keine Kalibrierung mit Punkten und keine Kontrolle gegen ein zweites Messgerät ist registriert: Über Drift wird nichts gesagt.</translation>
    </message>
    <message>
        <source>one instrument</source>
        <translation>ein Messgerät</translation>
    </message>
    <message>
        <source>%1 different units are off together within a year, all by about %2 % (U %3 %): rather the instrument than the units. Compare it with another one before it is used again.</source>
        <translation>%1 verschiedene Geräte weichen innerhalb eines Jahres gleich ab, alle um etwa %2 % (U %3 %): Das spricht für einen Fehler des Messgeräts. Vor dem nächsten Einsatz mit einem anderen vergleichen.</translation>
    </message>
    <message>
        <source>Calibration. %1</source>
        <translation>Kalibrierung. %1</translation>
    </message>
    <message>
        <source>Against a second gauge. %1</source>
        <translation>Gegen ein zweites Messgerät. %1</translation>
    </message>
    <message>
        <source>second gauge due</source>
        <translation>Kontrolle fällig</translation>
    </message>
    <message>
        <source>name, serial number</source>
        <translation>Name, Seriennummer</translation>
    </message>
    <message>
        <source>Open the record</source>
        <translation>Protokoll öffnen</translation>
    </message>
    <message>
        <source>%1 and more.</source>
        <translation>%1 und mehr.</translation>
    </message>
    <message>
        <source>%1, calibration due %2.</source>
        <translation>%1, Kalibrierung fällig am %2.</translation>
    </message>
</context>
<context>
    <name>RegisterText</name>
    <message>
        <source>overdue</source>
        <translation>überfällig</translation>
    </message>
    <message>
        <source>due</source>
        <translation>fällig</translation>
    </message>
    <message>
        <source>not released</source>
        <translation>nicht freigegeben</translation>
    </message>
    <message>
        <source>never checked here</source>
        <translation>hier nie geprüft</translation>
    </message>
    <message>
        <source>no interval set</source>
        <translation>kein Intervall festgelegt</translation>
    </message>
    <message>
        <source>captured here</source>
        <translation>hier aufgenommen</translation>
    </message>
    <message>
        <source>SIMULATED</source>
        <translation>SIMULIERT</translation>
    </message>
    <message>
        <source>IMPORTED</source>
        <translation>IMPORTIERT</translation>
    </message>
    <message>
        <source>suspected</source>
        <translation>Abweichung vermutet</translation>
    </message>
    <message>
        <source>kept out of use</source>
        <translation>außer Betrieb gehalten</translation>
    </message>
    <message>
        <source>pre-delivery</source>
        <translation>vor Auslieferung</translation>
    </message>
    <message>
        <source>periodic</source>
        <translation>wiederkehrend</translation>
    </message>
    <message>
        <source>home visit</source>
        <translation>Hausbesuch</translation>
    </message>
</context>
<context>
    <name>Result</name>
    <message>
        <source>insufflation pressure</source>
        <translation>Insufflationsdruck</translation>
    </message>
    <message>
        <source>exsufflation pressure</source>
        <translation>Exsufflationsdruck</translation>
    </message>
    <message>
        <source>insufflation duration</source>
        <translation>Insufflationsdauer</translation>
    </message>
    <message>
        <source>exsufflation duration</source>
        <translation>Exsufflationsdauer</translation>
    </message>
    <message>
        <source>pause duration</source>
        <translation>Pausendauer</translation>
    </message>
    <message>
        <source>pause residual</source>
        <translation>Restdruck in der Pause</translation>
    </message>
    <message>
        <source>return to zero</source>
        <translation>Rückkehr zu null</translation>
    </message>
    <message>
        <source>displayed insufflation</source>
        <translation>Anzeige Insufflation</translation>
    </message>
    <message>
        <source>displayed exsufflation</source>
        <translation>Anzeige Exsufflation</translation>
    </message>
    <message>
        <source>oscillation frequency</source>
        <translation>Oszillationsfrequenz</translation>
    </message>
    <message>
        <source>oscillation amplitude</source>
        <translation>Oszillationsamplitude</translation>
    </message>
    <message>
        <source>flow</source>
        <translation>Flow</translation>
    </message>
    <message>
        <source>strength under flow</source>
        <translation>Leistung bei Flow</translation>
    </message>
    <message>
        <source>alarms</source>
        <translation>Alarme</translation>
    </message>
    <message>
        <source>filters</source>
        <translation>Filter</translation>
    </message>
    <message>
        <source>battery duration</source>
        <translation>Akkulaufzeit</translation>
    </message>
    <message>
        <source>electrical safety</source>
        <translation>elektrische Sicherheit</translation>
    </message>
    <message>
        <source>mask and hose in use</source>
        <translation>Maske und Schlauch im Gebrauch</translation>
    </message>
    <message>
        <source>signs</source>
        <translation>Vorzeichen</translation>
    </message>
    <message>
        <source>displays</source>
        <translation>Anzeigen</translation>
    </message>
    <message>
        <source>hand-back</source>
        <translation>Rückgabe</translation>
    </message>
    <message>
        <source>not judged</source>
        <translation>nicht beurteilt</translation>
    </message>
    <message>
        <source>pass</source>
        <translation>bestanden</translation>
    </message>
    <message>
        <source>conditional pass</source>
        <translation>bedingt bestanden</translation>
    </message>
    <message>
        <source>incomplete</source>
        <translation>unvollständig</translation>
    </message>
    <message>
        <source>conditional fail</source>
        <translation>bedingt nicht bestanden</translation>
    </message>
    <message>
        <source>fail</source>
        <translation>nicht bestanden</translation>
    </message>
    <message>
        <source>note</source>
        <translation>Hinweis</translation>
    </message>
    <message>
        <source>caution</source>
        <translation>Vorsicht</translation>
    </message>
    <message>
        <source>critical</source>
        <translation>kritisch</translation>
    </message>
    <message>
        <source>Outside limits, within uncertainty</source>
        <translation>Außerhalb der Grenzen, innerhalb der Unsicherheit</translation>
    </message>
    <message>
        <source>Outside limits</source>
        <translation>Außerhalb der Grenzen</translation>
    </message>
    <message>
        <source>Stopped: run again</source>
        <translation>Angehalten: wiederholen</translation>
    </message>
    <message>
        <source>Incomplete</source>
        <translation>Unvollständig</translation>
    </message>
    <message>
        <source>It agreed with the prescription within the stated limits, on this occasion.</source>
        <translation>Bei dieser Prüfung entsprach das Gerät der Verordnung, innerhalb der genannten Grenzen.</translation>
    </message>
    <message>
        <source>Pressures and times at a closed hose end only. Not tested: %1.</source>
        <translation>Nur Drücke und Zeiten am verschlossenen Schlauchende. Nicht geprüft: %1.</translation>
    </message>
    <message>
        <source>%1 to %2</source>
        <translation>%1 bis %2</translation>
    </message>
    <message>
        <source>at most %1</source>
        <translation>höchstens %1</translation>
    </message>
    <message>
        <source>at least %1</source>
        <translation>mindestens %1</translation>
    </message>
    <message>
        <source>reported</source>
        <translation>nur angegeben</translation>
    </message>
    <message>
        <source>%1 (preset %2): %3 of %4 %5 in cycle %6; the limits are %7.</source>
        <translation>%1 (Programm %2): %3 statt %4 %5 in Zyklus %6; die Grenzen sind %7.</translation>
    </message>
    <message>
        <source>%1 (preset %2): too few judged cycles (%3).</source>
        <translation>%1 (Programm %2): zu wenige beurteilte Zyklen (%3).</translation>
    </message>
    <message>
        <source>%1 (preset %2): %3</source>
        <translation>%1 (Programm %2): %3</translation>
    </message>
    <message>
        <source>zero before</source>
        <translation>Nullpunkt vorher</translation>
    </message>
    <message>
        <source>manual holds</source>
        <translation>Halten von Hand</translation>
    </message>
    <message>
        <source>automatic cycles</source>
        <translation>automatische Zyklen</translation>
    </message>
    <message>
        <source>zero after</source>
        <translation>Nullpunkt nachher</translation>
    </message>
    <message>
        <source>zero before (%1)</source>
        <translation>Nullpunkt vorher (%1)</translation>
    </message>
    <message>
        <source>zero after (%1)</source>
        <translation>Nullpunkt nachher (%1)</translation>
    </message>
    <message>
        <source>Skipped: %1.</source>
        <translation>Ausgelassen: %1.</translation>
    </message>
    <message>
        <source>%1, critical</source>
        <translation>%1, kritisch</translation>
    </message>
    <message>
        <source>stopped</source>
        <translation>angehalten</translation>
    </message>
    <message>
        <source>IMPORTED: the trace came as a file; nobody here saw it captured.</source>
        <translation>IMPORTIERT: Die Messkurve kam als Datei; niemand hier hat sie entstehen sehen.</translation>
    </message>
    <message>
        <source>Not sealed yet: nobody has signed this.</source>
        <translation>Noch nicht versiegelt: Niemand hat unterschrieben.</translation>
    </message>
    <message>
        <source>Not in order</source>
        <translation>Nicht in Ordnung</translation>
    </message>
    <message>
        <source>As prescribed: %1. As set: %2</source>
        <translation>Wie verordnet: %1. Wie eingestellt: %2</translation>
    </message>
    <message>
        <source>Keep this unit out of use</source>
        <translation>Dieses Gerät nicht benutzen</translation>
    </message>
    <message>
        <source>Keep this unit out of use until it is checked again</source>
        <translation>Dieses Gerät nicht benutzen, bis es erneut geprüft ist</translation>
    </message>
    <message>
        <source>Inside the limits, on this occasion, but nearer to one than the uncertainty.</source>
        <translation>Bei dieser Prüfung innerhalb der Grenzen, aber einer Grenze näher, als die Unsicherheit groß ist.</translation>
    </message>
    <message>
        <source>Outside a limit, but by less than the uncertainty.</source>
        <translation>Außerhalb einer Grenze, aber um weniger als die Unsicherheit.</translation>
    </message>
    <message>
        <source>It delivered what is prescribed, on this occasion, but not what it was set to.</source>
        <translation>Bei dieser Prüfung lieferte das Gerät, was verordnet ist, aber nicht, worauf es eingestellt war.</translation>
    </message>
    <message>
        <source>Not everything that a verdict needs was seen. This says neither that the unit agrees nor that it does not.</source>
        <translation>Nicht alles, was ein Urteil braucht, wurde gesehen. Das sagt weder, dass das Gerät übereinstimmt, noch das Gegenteil.</translation>
    </message>
    <message>
        <source>Somebody seems to have been connected. This says nothing about the unit.</source>
        <translation>Anscheinend war jemand angeschlossen. Das sagt nichts über das Gerät.</translation>
    </message>
    <message>
        <source>No value was judged; what is critical counts as a fail.</source>
        <translation>Kein Wert wurde beurteilt; was kritisch ist, gilt als nicht bestanden.</translation>
    </message>
    <message>
        <source>This run is kept.</source>
        <translation>Diese Prüfung bleibt erhalten.</translation>
    </message>
    <message>
        <source>All %1 judgements lie within their limits.</source>
        <translation>Alle %1 beurteilten Werte liegen innerhalb ihrer Grenzen.</translation>
    </message>
    <message>
        <source>Take the hose off the person and look to them; then run again with nobody connected.</source>
        <translation>Den Schlauch von der Person nehmen und nach ihr sehen; dann noch einmal prüfen, ohne dass jemand angeschlossen ist.</translation>
    </message>
    <message>
        <source>Check zero, plug and hose first.</source>
        <translation>Zuerst Nullpunkt, Stopfen und Schlauch prüfen.</translation>
    </message>
    <message>
        <source>Set otherwise than prescribed: no fault of the unit. Do not change it unless you are authorised.</source>
        <translation>Anders eingestellt als verordnet: kein Fehler des Geräts. Nur ändern, wer dazu befugt ist.</translation>
    </message>
    <message>
        <source>The calibration had lapsed: indicative only, no statement of conformity.</source>
        <translation>Die Kalibrierung war abgelaufen: nur zur Orientierung, keine Konformitätsaussage.</translation>
    </message>
    <message>
        <source>Unit accuracy (measured against what it was set to): %1.</source>
        <translation>Gerätegenauigkeit (gemessen gegen eingestellt): %1.</translation>
    </message>
    <message>
        <source>no value was measured; what is critical counts as a fail</source>
        <translation>kein Wert wurde gemessen; was kritisch ist, gilt als nicht bestanden</translation>
    </message>
    <message>
        <source>nothing that the procedure asks for</source>
        <translation>nichts, was der Ablauf verlangt</translation>
    </message>
    <message>
        <source>Not judged</source>
        <translation>Nicht beurteilt</translation>
    </message>
    <message>
        <source>Within limits</source>
        <translation>Innerhalb der Grenzen</translation>
    </message>
    <message>
        <source>Within limits, near a limit</source>
        <translation>Innerhalb der Grenzen, nahe an einer Grenze</translation>
    </message>
    <message>
        <source>%1, as set</source>
        <translation>%1, wie eingestellt</translation>
    </message>
    <message>
        <source>%1 (preset %2): %3 shown, %4 %5 measured; the limits are %6.</source>
        <translation>%1 (Programm %2): %3 angezeigt, %4 %5 gemessen; die Grenzen sind %6.</translation>
    </message>
    <message>
        <source>%1 (preset %2): %3 %4 in cycle %5; the limits are %6.</source>
        <translation>%1 (Programm %2): %3 %4 in Zyklus %5; die Grenzen sind %6.</translation>
    </message>
    <message>
        <source>manual holds, preset &apos;%1&apos; (%2)</source>
        <translation>Halten von Hand, Programm „%1“ (%2)</translation>
    </message>
    <message>
        <source>automatic cycles, preset &apos;%1&apos; (%2)</source>
        <translation>automatische Zyklen, Programm „%1“ (%2)</translation>
    </message>
    <message>
        <source>Not looked at: %1.</source>
        <translation>Nicht angesehen: %1.</translation>
    </message>
    <message>
        <source>Straight line through %1 settings: gain %2 (U %3), offset %4 %6 (U %5), largest deviation from it %7 %6 (U %8) at %9.</source>
        <translation>Ausgleichsgerade über %1 Einstellungen: Steigung %2 (U %3), Versatz %4 %6 (U %5), größte Abweichung von der Geraden %7 %6 (U %8) bei %9.</translation>
    </message>
    <message>
        <source>a setting of the ladder, preset &apos;%1&apos; (%2)</source>
        <translation>eine Einstellung der Stufenreihe, Programm „%1“ (%2)</translation>
    </message>
    <message>
        <source>SIMULATED: a program sent these readings. They say nothing about any unit.</source>
        <translation>SIMULIERT: Diese Messwerte hat eine Software erzeugt. Sie sagen nichts über ein Gerät.</translation>
    </message>
    <message>
        <source>leak test of the set-up</source>
        <translation>Lecktest des Aufbaus</translation>
    </message>
    <message>
        <source>leak test of the set-up (%1)</source>
        <translation>Lecktest des Aufbaus (%1)</translation>
    </message>
    <message>
        <source>strength with an orifice, preset &apos;%1&apos; (%2)</source>
        <translation>Leistung mit einer Blende, Programm „%1“ (%2)</translation>
    </message>
    <message>
        <source>Leak test of the set-up: from %1 cmH2O %2 cmH2O/s lost (U %3), %4 mL/min; the limit is %5 cmH2O/s.</source>
        <translation>Lecktest des Aufbaus: von %1 cmH2O aus %2 cmH2O/s verloren (U %3), %4 mL/min; die Grenze ist %5 cmH2O/s.</translation>
    </message>
    <message>
        <source>no first value of this unit with this orifice is known</source>
        <translation>kein erster Wert dieses Geräts mit dieser Blende ist bekannt</translation>
    </message>
    <message>
        <source>at first %1 % (%2, record %3), %4 % of that lost since</source>
        <translation>zuerst %1 % (%2, Protokoll %3), seither %4 % davon verloren</translation>
    </message>
    <message>
        <source>insufflation</source>
        <translation>Insufflation</translation>
    </message>
    <message>
        <source>exsufflation</source>
        <translation>Exsufflation</translation>
    </message>
    <message>
        <source>Strength with orifice &apos;%1&apos; (%2 mm), preset &apos;%3&apos;, %4: %5 of %6 cmH2O left, %7 % (U %8 %), about %9 L/min; </source>
        <translation>Leistung mit Blende „%1“ (%2 mm), Programm „%3“, %4: %5 von %6 cmH2O bleiben, %7 % (U %8 %), etwa %9 L/min; </translation>
    </message>
    <message>
        <source>; strength under flow not tested</source>
        <translation>; Leistung bei Flow nicht geprüft</translation>
    </message>
    <message>
        <source>%1 min %2 s</source>
        <translation>%1 min %2 s</translation>
    </message>
    <message>
        <source>one series of %1 breaths: %2</source>
        <translation>eine Serie von %1 Atemzügen: %2</translation>
    </message>
    <message>
        <source>%1 series of %2 breaths, %3 s rest between them: %4 in all</source>
        <translation>%1 Serien von %2 Atemzügen, dazwischen %3 s Ruhe: insgesamt %4</translation>
    </message>
    <message>
        <source>Right.</source>
        <translation>Richtig.</translation>
    </message>
    <message>
        <source>Near: a run at a closed hose end does not tell the two apart.</source>
        <translation>Fast: ein Lauf am geschlossenen Schlauchende unterscheidet die beiden nicht.</translation>
    </message>
    <message>
        <source>It was something else.</source>
        <translation>Es war etwas anderes.</translation>
    </message>
    <message>
        <source>nothing: a healthy unit</source>
        <translation>nichts: ein gesundes Gerät</translation>
    </message>
    <message>
        <source>It was %1.</source>
        <translation>Es war: %1.</translation>
    </message>
    <message>
        <source>What told it:</source>
        <translation>Woran es zu erkennen war:</translation>
    </message>
    <message>
        <source>Nothing stood out in the trace.</source>
        <translation>In der Kurve fiel nichts auf.</translation>
    </message>
    <message>
        <source>Nothing in this run told it: it is too small, or the run ended too soon.</source>
        <translation>Nichts in diesem Lauf verriet es: es ist zu klein, oder der Lauf endete zu früh.</translation>
    </message>
    <message>
        <source>PRACTICE: the virtual bench has chosen what is wrong, or nothing. No record is made.</source>
        <translation>ÜBUNG: Der virtuelle Prüfplatz hat gewählt, was nicht stimmt, oder nichts. Es entsteht kein Protokoll.</translation>
    </message>
    <message>
        <source>The unit: released for use.</source>
        <translation>Das Gerät: zur Benutzung freigegeben.</translation>
    </message>
    <message>
        <source>The unit: not released, whatever the run log says; it did not pass.</source>
        <translation>Das Gerät: nicht freigegeben, was auch im Prüfjournal steht; es hat nicht bestanden.</translation>
    </message>
    <message>
        <source>No loaner was arranged.</source>
        <translation>Ein Leihgerät wurde nicht gestellt.</translation>
    </message>
    <message>
        <source>Loaner arranged: %1.</source>
        <translation>Leihgerät gestellt: %1.</translation>
    </message>
    <message>
        <source>The unit: kept out of use (%1).</source>
        <translation>Das Gerät: außer Betrieb gehalten (%1).</translation>
    </message>
    <message>
        <source>Adjusted before this run by %1, authorised to do so.</source>
        <translation>Vor dieser Prüfung justiert durch %1, dazu befugt.</translation>
    </message>
    <message>
        <source>Adjusted before this run by %1; nobody said that they were authorised.</source>
        <translation>Vor dieser Prüfung justiert durch %1; dass eine Befugnis bestand, hat niemand angegeben.</translation>
    </message>
    <message>
        <source>%1, on battery</source>
        <translation>%1, am Akku</translation>
    </message>
    <message>
        <source>%1, on mains</source>
        <translation>%1, am Netz</translation>
    </message>
    <message>
        <source>%1 (preset %2): %3 %4; the limits are %5.</source>
        <translation>%1 (Programm %2): %3 %4; die Grenzen sind %5.</translation>
    </message>
    <message>
        <source>insufflation pressure, battery less mains</source>
        <translation>Insufflationsdruck, Akku minus Netz</translation>
    </message>
    <message>
        <source>exsufflation pressure, battery less mains</source>
        <translation>Exsufflationsdruck, Akku minus Netz</translation>
    </message>
    <message>
        <source>Do not give this unit out: label it as not released and keep it apart until it is adjusted and checked again.</source>
        <translation>Dieses Gerät nicht ausgeben: als nicht freigegeben kennzeichnen und getrennt verwahren, bis es justiert und wieder geprüft ist.</translation>
    </message>
    <message>
        <source>If a person depends on this unit, arrange a replacement now%1; do not leave them without one.</source>
        <translation>Ist jemand auf dieses Gerät angewiesen, jetzt für Ersatz sorgen%1; niemanden ohne Gerät lassen.</translation>
    </message>
</context>
<context>
    <name>ResultCharts</name>
    <message>
        <source>preset</source>
        <translation>Programm</translation>
    </message>
    <message>
        <source>plateaus of insufflation about their limits</source>
        <translation>Plateaus der Insufflation um ihre Grenzen</translation>
    </message>
    <message>
        <source>plateaus of exsufflation about their limits</source>
        <translation>Plateaus der Exsufflation um ihre Grenzen</translation>
    </message>
    <message>
        <source>zero readings</source>
        <translation>Nullpunkt</translation>
    </message>
    <message>
        <source>worst values against their limits</source>
        <translation>ungünstigste Werte zwischen ihren Grenzen</translation>
    </message>
    <message>
        <source>before</source>
        <translation>vorher</translation>
    </message>
    <message>
        <source>after</source>
        <translation>nachher</translation>
    </message>
</context>
<context>
    <name>ResultHead</name>
    <message>
        <source>what this record is not</source>
        <translation>was diese Aufzeichnung nicht ist</translation>
    </message>
    <message>
        <source>verdict</source>
        <translation>Urteil</translation>
    </message>
    <message>
        <source>unit, order, date and signer</source>
        <translation>Gerät, Auftrag, Datum und Unterschrift</translation>
    </message>
</context>
<context>
    <name>ResultIdentity</name>
    <message>
        <source>not signed</source>
        <translation>nicht unterschrieben</translation>
    </message>
    <message>
        <source>signed by %1</source>
        <translation>unterschrieben von %1</translation>
    </message>
    <message>
        <source>DRAFT: never sealed. It is evidence of nothing.</source>
        <translation>ENTWURF: nie versiegelt. Er belegt nichts.</translation>
    </message>
    <message>
        <source>NOT INTACT: %1. What is shown is computed from the files as they are now, not as they were sealed.</source>
        <translation>VERÄNDERT: %1. Was hier steht, ist aus den Dateien gerechnet, wie sie jetzt sind, nicht wie sie versiegelt wurden.</translation>
    </message>
    <message>
        <source>KEY NOT KNOWN: sealed by a key that is not in the list of this bench.</source>
        <translation>SCHLÜSSEL UNBEKANNT: versiegelt mit einem Schlüssel, der nicht in der Liste dieses Prüfplatzes steht.</translation>
    </message>
    <message>
        <source>NOT INTACT: the key %1.</source>
        <translation>VERÄNDERT: der Schlüssel %1.</translation>
    </message>
</context>
<context>
    <name>ResultPage</name>
    <message>
        <source>result of the run</source>
        <translation>Ergebnis der Prüfung</translation>
    </message>
    <message>
        <source>findings and reasons</source>
        <translation>Befunde und Gründe</translation>
    </message>
    <message>
        <source>what was not tested</source>
        <translation>was nicht geprüft wurde</translation>
    </message>
    <message>
        <source>verdict</source>
        <translation>Urteil</translation>
    </message>
    <message>
        <source>why</source>
        <translation>warum</translation>
    </message>
    <message>
        <source>numbers of the result</source>
        <translation>Zahlen des Ergebnisses</translation>
    </message>
    <message>
        <source>&amp;Uncertainty, ratio and probability</source>
        <translation>&amp;Unsicherheit, Verhältnis, Wahrscheinlichkeit</translation>
    </message>
    <message>
        <source>whether the record is as it was sealed</source>
        <translation>ob das Protokoll noch ist, wie es versiegelt wurde</translation>
    </message>
    <message>
        <source>The record in %1.</source>
        <translation>Das Protokoll in %1.</translation>
    </message>
    <message>
        <source>The run was not seen to its end. What was captured is kept in %1.</source>
        <translation>Die Prüfung kam nicht bis zum Ende. Das bisher Aufgezeichnete liegt in %1.</translation>
    </message>
    <message>
        <source>Saved in %1.</source>
        <translation>Gespeichert in %1.</translation>
    </message>
    <message>
        <source>PDF files (*.pdf)</source>
        <translation>PDF-Dateien (*.pdf)</translation>
    </message>
    <message>
        <source>Not sealed: it lacks %1. What was captured is kept in %2.</source>
        <translation>Nicht versiegelt: es fehlt %1. Das bisher Aufgezeichnete liegt in %2.</translation>
    </message>
    <message>
        <source>columns that are not shown</source>
        <translation>Spalten, die nicht gezeigt werden</translation>
    </message>
    <message>
        <source>No room here for: %1. A wider window and the record show them.</source>
        <translation>Kein Platz hier für: %1. Ein breiteres Fenster und das Protokoll zeigen sie.</translation>
    </message>
    <message>
        <source>what this record is not</source>
        <translation>was diese Aufzeichnung nicht ist</translation>
    </message>
    <message>
        <source>what to do</source>
        <translation>was zu tun ist</translation>
    </message>
    <message>
        <source>whether the unit does what it is set to</source>
        <translation>ob das Gerät tut, worauf es eingestellt ist</translation>
    </message>
    <message>
        <source>Looked at only: this is no record, and nothing was saved.</source>
        <translation>Nur angesehen: das ist kein Protokoll, und nichts wurde gespeichert.</translation>
    </message>
    <message>
        <source>source of the limits</source>
        <translation>Quelle der Grenzen</translation>
    </message>
    <message>
        <source>The run in %1, which nobody has signed yet.</source>
        <translation>Die Prüfung in %1, die noch niemand unterschrieben hat.</translation>
    </message>
    <message>
        <source>Limits from: %1.</source>
        <translation>Grenzen aus: %1.</translation>
    </message>
    <message>
        <source>Save as PDF</source>
        <translation>Als PDF speichern</translation>
    </message>
    <message>
        <source>Saved as %1.</source>
        <translation>Gespeichert als %1.</translation>
    </message>
    <message>
        <source>Sent to %1.</source>
        <translation>Gesendet an %1.</translation>
    </message>
    <message>
        <source>Findings and remarks (%1)</source>
        <translation>Befunde und Hinweise (%1)</translation>
    </message>
    <message>
        <source>Practice: nothing is kept.</source>
        <translation>Übung: nichts wird aufbewahrt.</translation>
    </message>
    <message>
        <source>what becomes of the unit</source>
        <translation>was aus dem Gerät wird</translation>
    </message>
</context>
<context>
    <name>Run</name>
    <message>
        <source>all of it before the run: a record cannot be sealed without</source>
        <translation>all das vor der Prüfung: ohne lässt sich kein Protokoll versiegeln</translation>
    </message>
    <message>
        <source>not known</source>
        <translation>nicht bekannt</translation>
    </message>
    <message>
        <source>Stop the unit. Is a person, a bag or a soft tube connected? Take the hose off a person first; look at the hose end and the plug.</source>
        <translation>Gerät anhalten. Ist eine Person, ein Beutel oder ein weicher Schlauch angeschlossen? Zuerst den Schlauch von der Person nehmen; Schlauchende und Stopfen ansehen.</translation>
    </message>
    <message>
        <source>your word: nothing soft, plug seen; or go on without it (the record will be incomplete)</source>
        <translation>Ihre Antwort: nichts Weiches, Stopfen gesehen; oder ohne Antwort weiter (das Protokoll bleibt unvollständig)</translation>
    </message>
    <message>
        <source>nothing soft at the hose end, plug seen: the run goes on</source>
        <translation>nichts Weiches am Schlauchende, Stopfen gesehen: die Prüfung geht weiter</translation>
    </message>
    <message>
        <source>Nobody has said that nothing soft is at the hose end: the record will be incomplete.</source>
        <translation>Niemand hat gesagt, dass nichts Weiches am Schlauchende ist: das Protokoll bleibt unvollständig.</translation>
    </message>
    <message>
        <source>One cycle is unlike the others: was the hose touched? Hands off; the run goes on for more cycles.</source>
        <translation>Ein Zyklus ist anders als die übrigen: wurde der Schlauch berührt? Hände weg; es folgen weitere Zyklen.</translation>
    </message>
    <message>
        <source>The run is complete.</source>
        <translation>Die Prüfung ist vollständig.</translation>
    </message>
    <message>
        <source>The run is stopped.</source>
        <translation>Die Prüfung ist angehalten.</translation>
    </message>
    <message>
        <source>The step waited too long: the run ends here, incomplete.</source>
        <translation>Der Schritt wartete zu lange: die Prüfung endet hier, unvollständig.</translation>
    </message>
    <message>
        <source>The instrument did not come back: the run ends here, incomplete.</source>
        <translation>Das Messgerät kam nicht zurück: die Prüfung endet hier, unvollständig.</translation>
    </message>
    <message>
        <source>What is captured can no longer be saved: the run ends here, incomplete.</source>
        <translation>Was erfasst wird, lässt sich nicht mehr speichern: die Prüfung endet hier, unvollständig.</translation>
    </message>
    <message>
        <source>organisation that runs this bench</source>
        <translation>Einrichtung, die diesen Prüfplatz betreibt</translation>
    </message>
    <message>
        <source>address of the organisation</source>
        <translation>Anschrift der Einrichtung</translation>
    </message>
    <message>
        <source>customer, or why there is none</source>
        <translation>Kunde, oder warum es keinen gibt</translation>
    </message>
    <message>
        <source>place of the run</source>
        <translation>Ort der Prüfung</translation>
    </message>
    <message>
        <source>name of who runs it and signs</source>
        <translation>Name dessen, der sie durchführt und unterschreibt</translation>
    </message>
    <message>
        <source>The unit is needed: the run ends here, incomplete.</source>
        <translation>Das Gerät wird gebraucht: die Prüfung endet hier, unvollständig.</translation>
    </message>
    <message>
        <source>Interrupted: the run ends here, incomplete.</source>
        <translation>Unterbrochen: die Prüfung endet hier, unvollständig.</translation>
    </message>
    <message>
        <source>The instrument is gone: the run waits for it.</source>
        <translation>Das Messgerät ist weg: die Prüfung wartet darauf.</translation>
    </message>
    <message>
        <source>The instrument is back: the run goes on.</source>
        <translation>Das Messgerät ist zurück: die Prüfung geht weiter.</translation>
    </message>
    <message>
        <source>No further cycle came: going on with what was seen.</source>
        <translation>Es kam kein weiterer Zyklus: weiter mit dem Gesehenen.</translation>
    </message>
    <message>
        <source>Zero reads %1 cmH2O, the limit is %2: is the line off the tee and open? Set the instrument to zero and read again.</source>
        <translation>Der Nullpunkt zeigt %1 cmH2O, die Grenze ist %2: ist die Leitung vom T-Stück ab und offen? Messgerät auf null stellen und neu lesen.</translation>
    </message>
    <message>
        <source>your word: read again, or go on with this zero (the record will be incomplete)</source>
        <translation>Ihre Antwort: neu lesen oder mit diesem Nullpunkt weiter (das Protokoll wird unvollständig)</translation>
    </message>
    <message>
        <source>something moves: hold the open line still</source>
        <translation>etwas bewegt sich: die offene Leitung ruhig halten</translation>
    </message>
    <message>
        <source>insufflation seen, about %1 cmH2O</source>
        <translation>Insufflation gesehen, etwa %1 cmH2O</translation>
    </message>
    <message>
        <source>exsufflation seen, about %1 cmH2O</source>
        <translation>Exsufflation gesehen, etwa %1 cmH2O</translation>
    </message>
    <message>
        <source>zero reads %1 cmH2O, noise %2</source>
        <translation>Nullpunkt %1 cmH2O, Rauschen %2</translation>
    </message>
    <message>
        <source>pressure builds up</source>
        <translation>Druck baut sich auf</translation>
    </message>
    <message>
        <source>The phases held are not the ones asked for: once more from the start.</source>
        <translation>Es waren nicht die verlangten Phasen: noch einmal von vorn.</translation>
    </message>
    <message>
        <source>Let go and wait for zero.</source>
        <translation>Loslassen und auf null warten.</translation>
    </message>
    <message>
        <source>Hold insufflation for 3 s, then let go.</source>
        <translation>Insufflation 3 s halten, dann loslassen.</translation>
    </message>
    <message>
        <source>Hold exsufflation for 3 s, then let go.</source>
        <translation>Exsufflation 3 s halten, dann loslassen.</translation>
    </message>
    <message>
        <source>cycle %1; judged: %2 of %3</source>
        <translation>Zyklus %1; beurteilt: %2 von %3</translation>
    </message>
    <message>
        <source>Cycling has stopped after %1 cycles.</source>
        <translation>Nach %1 Zyklen stehen geblieben.</translation>
    </message>
    <message>
        <source>The unit has run for about %1 s against a closed end: stop it, it rests %2 s.</source>
        <translation>Das Gerät lief etwa %1 s gegen ein geschlossenes Ende: anhalten, es ruht %2 s.</translation>
    </message>
    <message>
        <source>Stop the unit and let it rest: %1 s.</source>
        <translation>Gerät anhalten und ruhen lassen: %1 s.</translation>
    </message>
    <message>
        <source>Look at this: %1.</source>
        <translation>Dies ansehen: %1.</translation>
    </message>
    <message>
        <source>Not in order: %1</source>
        <translation>Nicht in Ordnung: %1</translation>
    </message>
    <message>
        <source>The unit has stopped: start automatic mode again, trigger off.</source>
        <translation>Das Gerät steht: Automatik neu starten, Trigger aus.</translation>
    </message>
    <message>
        <source>Automatic, preset &apos;%1&apos;: leave the hose end shut.</source>
        <translation>Automatik, Programm „%1“: Schlauchende verschlossen lassen.</translation>
    </message>
    <message>
        <source>Stop. Is someone connected? Take the hose off the person now.</source>
        <translation>Halt. Ist jemand angeschlossen? Den Schlauch jetzt von der Person nehmen.</translation>
    </message>
    <message>
        <source>Critical: keep this unit out of use.</source>
        <translation>Kritisch: dieses Gerät nicht benutzen.</translation>
    </message>
    <message>
        <source>is data coming in, is the sensing line on the tee, does the plug sit tight?</source>
        <translation>kommen Daten, sitzt die Messleitung am T-Stück, ist der Stopfen dicht?</translation>
    </message>
    <message>
        <source>your word</source>
        <translation>Ihre Bestätigung</translation>
    </message>
    <message>
        <source>five quiet seconds</source>
        <translation>fünf ruhige Sekunden</translation>
    </message>
    <message>
        <source>is the line off the tee and open, does it hang still, has the instrument warmed up?</source>
        <translation>ist die Leitung vom T-Stück ab und offen, hängt sie still, ist das Messgerät warm?</translation>
    </message>
    <message>
        <source>Put the sensing line back on the tee, shut the hose end with the plug, set the unit to manual and preset &apos;%1&apos;, and hold insufflation for 3 s.</source>
        <translation>Messleitung wieder ans T-Stück stecken, Schlauchende mit dem Stopfen verschließen, am Gerät „Manuell“ und Programm „%1“ wählen, Insufflation 3 s halten.</translation>
    </message>
    <message>
        <source>pressure: hold insufflation</source>
        <translation>Druck (Insufflation halten)</translation>
    </message>
    <message>
        <source>Hold each phase for 3 s and let go. Read what the unit displays while you hold.</source>
        <translation>Jede Phase 3 s halten und loslassen. Beim Halten die Anzeige ablesen.</translation>
    </message>
    <message>
        <source>the phase that is asked for</source>
        <translation>die verlangte Phase</translation>
    </message>
    <message>
        <source>Start automatic mode, preset &apos;%1&apos;, trigger off.</source>
        <translation>Automatik starten, Programm „%1“, Trigger aus.</translation>
    </message>
    <message>
        <source>cycles</source>
        <translation>Zyklen</translation>
    </message>
    <message>
        <source>is the unit in automatic mode, is the breath trigger off, has its programmed series ended?</source>
        <translation>ist das Gerät auf Automatik, der Atemtrigger aus, die programmierte Serie zu Ende?</translation>
    </message>
    <message>
        <source>Stop the unit and select preset &apos;%1&apos; (%2). Leave the plug in.</source>
        <translation>Gerät anhalten und Programm „%1“ wählen (%2). Stopfen stecken lassen.</translation>
    </message>
    <message>
        <source>the unit to stop cycling</source>
        <translation>Stillstand des Geräts</translation>
    </message>
    <message>
        <source>is the unit still cycling?</source>
        <translation>läuft das Gerät noch?</translation>
    </message>
    <message>
        <source>Copy the settings as found from the unit&apos;s screen; then switch the breath trigger off.</source>
        <translation>Vorgefundene Einstellungen vom Display abschreiben; dann den Atemtrigger ausschalten.</translation>
    </message>
    <message>
        <source>Take the sensing line off the tee and leave it open to air. Switching the unit off is not enough.</source>
        <translation>Messleitung vom T-Stück nehmen und offen lassen. Ausschalten genügt nicht.</translation>
    </message>
    <message>
        <source>Reading zero: leave the line open and hold it still.</source>
        <translation>Nullpunkt wird gemessen: Leitung offen lassen und ruhig halten.</translation>
    </message>
    <message>
        <source>Switch the unit off, face away from the hose end, take the plug out, take the sensing line off the tee and leave it open.</source>
        <translation>Gerät ausschalten, Gesicht vom Schlauchende abwenden, Stopfen ziehen, Messleitung vom T-Stück nehmen und offen lassen.</translation>
    </message>
    <message>
        <source>Reading zero again: leave the line open.</source>
        <translation>Nullpunkt wird noch einmal gemessen: Leitung offen lassen.</translation>
    </message>
    <message>
        <source>Give the unit back as it must be; read each item back from the unit.</source>
        <translation>Gerät zurückgeben, wie es sein muss; jeden Punkt am Gerät nachprüfen.</translation>
    </message>
    <message>
        <source>breath trigger: on again where it was on when found</source>
        <translation>Atemtrigger: wieder an, falls er an war</translation>
    </message>
    <message>
        <source>breath trigger: as found</source>
        <translation>Atemtrigger: wie vorgefunden</translation>
    </message>
    <message>
        <source>preset &apos;%1&apos;: %2</source>
        <translation>Programm „%1“: %2</translation>
    </message>
    <message>
        <source>flow, oscillation and programmed series: as found</source>
        <translation>Flow, Oszillation, programmierte Serien: wie vorgefunden</translation>
    </message>
    <message>
        <source>mode: as found</source>
        <translation>Betriebsart: wie vorgefunden</translation>
    </message>
    <message>
        <source>alarms: on as found</source>
        <translation>Alarme: an, wie vorgefunden</translation>
    </message>
    <message>
        <source>the person&apos;s own hose and a fresh filter fitted</source>
        <translation>eigener Schlauch der Person und neuer Filter angebracht</translation>
    </message>
    <message>
        <source>mains lead in, unit switched on</source>
        <translation>Netzkabel steckt, Gerät eingeschaltet</translation>
    </message>
    <message>
        <source>Make the unit safe and hold it back: it does not go back to anybody.</source>
        <translation>Das Gerät sichern und zurückhalten: niemand bekommt es zurück.</translation>
    </message>
    <message>
        <source>See to the person first; then make the unit safe and give it back as it must be.</source>
        <translation>Zuerst nach der Person sehen; dann das Gerät sichern und zurückgeben, wie es sein muss.</translation>
    </message>
    <message>
        <source>the person: hose off, looked to first; somebody stays with them, and help is called if needed</source>
        <translation>die Person: Schlauch ab, zuerst nach ihr gesehen; jemand bleibt bei ihr, bei Bedarf wird Hilfe gerufen</translation>
    </message>
    <message>
        <source>the check is run again with nobody connected: this one says nothing of the unit</source>
        <translation>die Prüfung wird wiederholt, ohne dass jemand angeschlossen ist: diese sagt nichts über das Gerät</translation>
    </message>
    <message>
        <source>therapy stopped: the unit out of manual and automatic</source>
        <translation>Therapie angehalten: Gerät weder in Hand- noch in Automatikbetrieb</translation>
    </message>
    <message>
        <source>plug out of the hose end, facing away from it</source>
        <translation>Stopfen aus dem Schlauchende gezogen, Gesicht abgewandt</translation>
    </message>
    <message>
        <source>tee and sensing line off</source>
        <translation>T-Stück und Messleitung abgenommen</translation>
    </message>
    <message>
        <source>settings read from the unit and written down; nothing on it is changed any more</source>
        <translation>Einstellungen am Gerät abgelesen und aufgeschrieben; daran wird nichts mehr geändert</translation>
    </message>
    <message>
        <source>unit switched off, mains lead out</source>
        <translation>Gerät ausgeschaltet, Netzkabel gezogen</translation>
    </message>
    <message>
        <source>labelled &apos;out of use&apos;, in the way of this place</source>
        <translation>als „außer Betrieb“ gekennzeichnet, wie es hier üblich ist</translation>
    </message>
    <message>
        <source>kept where nobody takes it back into use</source>
        <translation>so verwahrt, dass niemand es wieder benutzt</translation>
    </message>
    <message>
        <source>a replacement arranged where a person depends on it; the person responsible informed, as local rules say</source>
        <translation>Ersatz besorgt, wo eine Person darauf angewiesen ist, und die verantwortliche Stelle benachrichtigt, nach den örtlichen Regeln</translation>
    </message>
    <message>
        <source>a replacement arranged where a person depends on it; the person responsible informed, as local rules say: %1</source>
        <translation>Ersatz besorgt, wo eine Person darauf angewiesen ist, und die verantwortliche Stelle benachrichtigt, nach den örtlichen Regeln: %1</translation>
    </message>
    <message>
        <source>The hose is off the person and stays off until you are told. If the person may need the unit now: stop here and give it back.</source>
        <translation>Der Schlauch ist von der Person abgenommen und bleibt es, bis es hier steht. Könnte die Person das Gerät jetzt brauchen: hier aufhören und es zurückgeben.</translation>
    </message>
    <message>
        <source>This is test equipment, not a medical device: no diagnosis, no monitoring. The prescriber sets the therapy, licensed staff apply it; the manufacturer&apos;s service documentation and local rules come first.</source>
        <translation>Dies ist ein Prüfmittel, kein Medizinprodukt: keine Diagnose, keine Überwachung. Die Therapie bestimmt, wer verordnet, befugtes Personal wendet sie an; Herstellerunterlagen und örtliche Regeln gehen vor.</translation>
    </message>
    <message>
        <source>A returned unit is contaminated until it is cleaned. Put a filter between unit and sensor, use a clean test hose, do not open the case. Electrical safety is tested by qualified people.</source>
        <translation>Ein zurückgegebenes Gerät gilt bis zur Aufbereitung als kontaminiert. Filter zwischen Gerät und Sensor, sauberer Prüfschlauch, Gehäuse nicht öffnen. Elektrische Sicherheit prüfen Fachleute.</translation>
    </message>
    <message>
        <source>Only pressures and times at a closed hose end are tested here.</source>
        <translation>Hier werden nur Drücke und Zeiten am verschlossenen Schlauchende geprüft.</translation>
    </message>
    <message>
        <source>If somebody is left without a working unit: %1.</source>
        <translation>Bleibt jemand ohne funktionierendes Gerät: %1.</translation>
    </message>
    <message>
        <source>%1 / %2 cmH2O, %3 / %4 / %5 s</source>
        <translation>%1 / %2 cmH2O, %3 / %4 / %5 s</translation>
    </message>
    <message>
        <source>, reduced flow</source>
        <translation>, verminderter Flow</translation>
    </message>
    <message>
        <source>, oscillation %1 Hz</source>
        <translation>, Oszillation %1 Hz</translation>
    </message>
    <message>
        <source>, trigger on</source>
        <translation>, Trigger an</translation>
    </message>
    <message>
        <source>, trigger off</source>
        <translation>, Trigger aus</translation>
    </message>
    <message>
        <source>Skipped: %1</source>
        <translation>Ausgelassen: %1</translation>
    </message>
    <message>
        <source>Waiting for %1, %2 min by now.%3 Esc gives the unit back.</source>
        <translation>Wartet auf: %1, seit %2 min.%3 Escape gibt das Gerät zurück.</translation>
    </message>
    <message>
        <source>The pressure moves by %1 cmH2O and no more: is the plug in, is the line on the tee, is the unit of the instrument the right one?</source>
        <translation>Der Druck bewegt sich nur um %1 cmH2O: steckt der Stopfen, sitzt die Leitung am T-Stück, stimmt die Einheit des Messgeräts?</translation>
    </message>
    <message>
        <source>The other phase came than was asked for: was the lever moved the other way, or does the sensing line sit on the wrong port of the instrument?</source>
        <translation>Es kam die andere Phase als verlangt: wurde der Hebel andersherum bewegt, oder sitzt die Messleitung am falschen Anschluss des Messgeräts?</translation>
    </message>
    <message>
        <source>Only about %1 of %2 cmH2O: is the plug in and tight, is the unit of the instrument the right one?</source>
        <translation>Nur etwa %1 von %2 cmH2O: steckt der Stopfen dicht, stimmt die Einheit des Messgeräts?</translation>
    </message>
    <message>
        <source>test hose off, a fresh filter fitted</source>
        <translation>Prüfschlauch ab, neuer Filter eingesetzt</translation>
    </message>
    <message>
        <source>test hose off, a fresh filter and the parts that are delivered with it beside it</source>
        <translation>Prüfschlauch ab; neuer Filter und mitgelieferte Teile liegen bei</translation>
    </message>
    <message>
        <source>not given out: labelled as not released, kept apart until it is adjusted and checked again</source>
        <translation>nicht ausgegeben: als nicht freigegeben gekennzeichnet und getrennt verwahrt, bis es justiert und wieder geprüft ist</translation>
    </message>
    <message>
        <source>whoever is responsible, by local rules</source>
        <translation>der verantwortlichen Stelle, nach den örtlichen Regeln</translation>
    </message>
    <message>
        <source>a person depends on it: told now, and what is used meanwhile agreed with %1</source>
        <translation>jemand ist darauf angewiesen: jetzt Bescheid gesagt und mit %1 vereinbart, was inzwischen benutzt wird</translation>
    </message>
    <message>
        <source>the unit to stand still</source>
        <translation>Stillstand des Geräts</translation>
    </message>
    <message>
        <source>Take the mains lead out: the unit runs on its battery now.</source>
        <translation>Netzkabel ziehen: Das Gerät läuft jetzt mit Akku.</translation>
    </message>
    <message>
        <source>Put the mains lead in again: the unit runs on mains now.</source>
        <translation>Netzkabel wieder einstecken: Das Gerät läuft jetzt am Netz.</translation>
    </message>
    <message>
        <source>the unit runs at it</source>
        <translation>das Gerät läuft so</translation>
    </message>
    <message>
        <source>It runs at about %1 / %2 cmH2O, %3 / %4 s: that is not what was asked for. Dial it in; or go on where it does stand so on the unit.</source>
        <translation>Es läuft bei etwa %1 / %2 cmH2O, %3 / %4 s: Das ist nicht, was verlangt war. Einstellen; oder trotzdem weiter, wenn es am Gerät so steht.</translation>
    </message>
    <message>
        <source>It runs at what was dialled in: leave the hose end shut.</source>
        <translation>Es läuft wie eingestellt: Schlauchende verschlossen lassen.</translation>
    </message>
    <message>
        <source>Setting %1: stop the unit, dial in %2, start automatic mode.</source>
        <translation>Einstellung %1: Gerät anhalten, %2 einstellen, Automatik starten.</translation>
    </message>
    <message>
        <source>cycles at %1</source>
        <translation>Zyklen bei %1</translation>
    </message>
    <message>
        <source>is it dialled in, is the unit in automatic mode, is the breath trigger off?</source>
        <translation>Ist es eingestellt, läuft das Gerät in Automatik, ist der Atemtrigger aus?</translation>
    </message>
    <message>
        <source>Stop the unit and dial it back to what is prescribed, preset &apos;%1&apos;: %2. Read it back.</source>
        <translation>Gerät anhalten und auf die Verordnung zurückstellen, Programm „%1“: %2. Am Display nachprüfen.</translation>
    </message>
    <message>
        <source>%1 of %2</source>
        <translation>%1 von %2</translation>
    </message>
    <message>
        <source>This instrument was never checked against a second gauge: away from zero its certificate is trusted. &apos;zeroline check-instrument&apos; checks it.</source>
        <translation>Dieses Messgerät wurde nie gegen ein zweites geprüft: abseits von null gilt sein Kalibrierschein. Mit &apos;zeroline check-instrument&apos; wird es geprüft.</translation>
    </message>
    <message>
        <source>The check of the instrument against a second gauge is %1.</source>
        <translation>Die Prüfung des Messgeräts gegen ein zweites: %1.</translation>
    </message>
    <message>
        <source>The instrument was not in order at its last check, %1: the verdict will be incomplete.</source>
        <translation>Das Messgerät war bei seiner letzten Prüfung nicht in Ordnung, %1: Das Urteil wird unvollständig.</translation>
    </message>
    <message>
        <source>Without a zero reading the instrument is not checked against the second gauge: leave it out, with the reason.</source>
        <translation>Ohne Nullmessung wird das Messgerät nicht gegen das zweite Manometer geprüft: auslassen, mit dem Grund.</translation>
    </message>
    <message>
        <source>The bench file names no second gauge, so the instrument is not checked now: leave it out, with the reason.</source>
        <translation>Die Datei des Prüfplatzes nennt kein zweites Manometer, darum wird das Messgerät jetzt nicht geprüft: auslassen, mit dem Grund.</translation>
    </message>
    <message>
        <source>the instrument is in order: %1</source>
        <translation>das Messgerät ist in Ordnung: %1</translation>
    </message>
    <message>
        <source>The instrument is not in order, the verdict will be incomplete: %1</source>
        <translation>Das Messgerät ist nicht in Ordnung, das Urteil wird unvollständig: %1</translation>
    </message>
    <message>
        <source>Press to about %1 cmH2O and hold it. What does the second gauge show, in %2?</source>
        <translation>Auf etwa %1 cmH2O drücken und halten. Was zeigt das zweite Manometer, in %2?</translation>
    </message>
    <message>
        <source>No readings come in.</source>
        <translation>Es kommen keine Messwerte.</translation>
    </message>
    <message>
        <source>The pressure moves: hold it still and type the gauge&apos;s value again.</source>
        <translation>Der Druck bewegt sich: ruhig halten und den Wert des Manometers noch einmal eingeben.</translation>
    </message>
    <message>
        <source>The instrument reads %1 cmH2O, not about %2: press there and type again.</source>
        <translation>Das Messgerät zeigt %1 cmH2O, nicht etwa %2: dorthin drücken und noch einmal eingeben.</translation>
    </message>
    <message>
        <source>second gauge %1, instrument %2, error %3 cmH2O (U %4)</source>
        <translation>zweites Manometer %1, Messgerät %2, Abweichung %3 cmH2O (U %4)</translation>
    </message>
    <message>
        <source>Press to about %1 cmH2O with the syringe, shut it off and take your hands away for %2 s.</source>
        <translation>Mit der Spritze auf etwa %1 cmH2O drücken, absperren und die Hände %2 s lang wegnehmen.</translation>
    </message>
    <message>
        <source>Draw to about %1 cmH2O with the syringe, shut it off and take your hands away for %2 s.</source>
        <translation>Mit der Spritze auf etwa %1 cmH2O ziehen, absperren und die Hände %2 s lang wegnehmen.</translation>
    </message>
    <message>
        <source>from %1 cmH2O: %2 cmH2O/s lost%3 over %4 s, %5 mL/min</source>
        <translation>von %1 cmH2O aus: %2 cmH2O/s verloren%3 in %4 s, %5 mL/min</translation>
    </message>
    <message>
        <source>%1: OUTSIDE the limit of %2 cmH2O/s</source>
        <translation>%1: AUSSERHALB der Grenze von %2 cmH2O/s</translation>
    </message>
    <message>
        <source>%1: within the limit of %2 cmH2O/s</source>
        <translation>%1: innerhalb der Grenze von %2 cmH2O/s</translation>
    </message>
    <message>
        <source>The set-up leaks: look at plug, tee, hose and sensing line, one after the other; then once more. Or go on: the record will say so.</source>
        <translation>Der Aufbau ist undicht: Stopfen, T-Stück, Schlauch und Messleitung ansehen, eins nach dem anderen; dann noch einmal. Oder weiter: das Protokoll sagt es dann.</translation>
    </message>
    <message>
        <source>your word: once more, or go on with this leak (the record will be incomplete)</source>
        <translation>Ihre Antwort: noch einmal oder mit diesem Leck weiter (das Protokoll wird unvollständig)</translation>
    </message>
    <message>
        <source>Hands off: the pressure is followed.</source>
        <translation>Hände weg: der Druck wird verfolgt.</translation>
    </message>
    <message>
        <source>Without the unit: instrument and second gauge on one tee, with a syringe. What the gauge shows is typed while the pressure is held.</source>
        <translation>Ohne das Gerät: Messgerät und zweites Manometer an einem T-Stück, mit einer Spritze. Was das Manometer zeigt, wird eingegeben, während der Druck gehalten wird.</translation>
    </message>
    <message>
        <source>what the second gauge shows</source>
        <translation>was das zweite Manometer zeigt</translation>
    </message>
    <message>
        <source>Leak test of the set-up, without the unit: the plug in the hose end, the line on the tee, a syringe with a tap where the unit would be.</source>
        <translation>Lecktest des Aufbaus, ohne das Gerät: der Stopfen im Schlauchende, die Leitung am T-Stück, eine Spritze mit Hahn an der Stelle des Geräts.</translation>
    </message>
    <message>
        <source>a pressure that is shut in</source>
        <translation>ein eingeschlossener Druck</translation>
    </message>
    <message>
        <source>is the syringe large enough (26 mL), is its tap shut, is the line on the tee?</source>
        <translation>ist die Spritze groß genug (26 mL), ist ihr Hahn zu, sitzt die Leitung am T-Stück?</translation>
    </message>
    <message>
        <source>Stop the unit. Face away from the hose end, take the plug out and put the orifice &apos;%1&apos; (%2 mm) in its place. Then start automatic mode, preset &apos;%3&apos;, trigger off.</source>
        <translation>Das Gerät anhalten. Vom Schlauchende abgewandt den Stopfen herausnehmen und die Blende „%1“ (%2 mm) an seine Stelle setzen. Dann den Automatikbetrieb starten, Programm „%3“, Trigger aus.</translation>
    </message>
    <message>
        <source>is the unit in automatic mode, is the breath trigger off, is the line on the tee?</source>
        <translation>ist das Gerät im Automatikbetrieb, ist der Atemtrigger aus, sitzt die Leitung am T-Stück?</translation>
    </message>
    <message>
        <source>Stop the unit. Take the orifice out and shut the hose end with the plug again.</source>
        <translation>Das Gerät anhalten. Die Blende herausnehmen und das Schlauchende wieder mit dem Stopfen verschließen.</translation>
    </message>
    <message>
        <source>cycle %1 of %2 with the orifice</source>
        <translation>Zyklus %1 von %2 mit der Blende</translation>
    </message>
    <message>
        <source>Automatic with the orifice: hands off the hose end.</source>
        <translation>Automatik mit der Blende: Hände weg vom Schlauchende.</translation>
    </message>
    <message>
        <source>mains lead in again</source>
        <translation>Netzstecker wieder eingesteckt</translation>
    </message>
    <message>
        <source>Take the hose off the person. Nobody connects it again until this program says so.</source>
        <translation>Den Schlauch von der Person abnehmen. Niemand schließt ihn wieder an, bevor es hier steht.</translation>
    </message>
    <message>
        <source>Do not give the unit out: set it back, label it as not released, keep it apart.</source>
        <translation>Das Gerät nicht ausgeben: zurückstellen, als nicht freigegeben kennzeichnen, getrennt verwahren.</translation>
    </message>
    <message>
        <source>from here on it may be connected to a person again, as those responsible for the therapy say</source>
        <translation>ab hier darf es wieder an eine Person angeschlossen werden, wie es die für die Therapie Verantwortlichen sagen</translation>
    </message>
    <message>
        <source>connected to nobody before those responsible for the therapy say so</source>
        <translation>an niemanden angeschlossen, bevor die für die Therapie Verantwortlichen es sagen</translation>
    </message>
</context>
<context>
    <name>RunPage</name>
    <message>
        <source>run in progress</source>
        <translation>Prüfung läuft</translation>
    </message>
    <message>
        <source>instrument and line</source>
        <translation>Messgerät und Leitung</translation>
    </message>
    <message>
        <source>order, unit and prescription</source>
        <translation>Auftrag, Gerät und Verordnung</translation>
    </message>
    <message>
        <source>what the scan says</source>
        <translation>was der Scan ergibt</translation>
    </message>
    <message>
        <source>asset, scanned or typed</source>
        <translation>Inventarnummer, gescannt oder getippt</translation>
    </message>
    <message>
        <source>scan the unit</source>
        <translation>Gerät scannen</translation>
    </message>
    <message>
        <source>prescribed, displayed, measured</source>
        <translation>verordnet, angezeigt, gemessen</translation>
    </message>
    <message>
        <source>trace and numbers</source>
        <translation>Kurve und Zahlen</translation>
    </message>
    <message>
        <source>what to do</source>
        <translation>was zu tun ist</translation>
    </message>
    <message>
        <source>what the run waits for</source>
        <translation>worauf die Prüfung wartet</translation>
    </message>
    <message>
        <source>what to check</source>
        <translation>was zu prüfen ist</translation>
    </message>
    <message>
        <source>what was seen last</source>
        <translation>was zuletzt zu sehen war</translation>
    </message>
    <message>
        <source>clock of blocked running</source>
        <translation>Uhr des Laufens gegen das verschlossene Ende</translation>
    </message>
    <message>
        <source>progress of the step</source>
        <translation>Fortschritt des Schritts</translation>
    </message>
    <message>
        <source>Go on all the same  [G]</source>
        <translation>Trotzdem weiter  [G]</translation>
    </message>
    <message>
        <source>%1 the unit of this order</source>
        <translation>%1 das Gerät dieses Auftrags</translation>
    </message>
    <message>
        <source>%1 not the unit of this order, which is %2</source>
        <translation>%1 nicht das Gerät dieses Auftrags, das ist %2</translation>
    </message>
    <message>
        <source>The instrument is gone. Put it back: the run then goes on.</source>
        <translation>Das Messgerät ist weg. Wieder einstecken: dann geht die Prüfung weiter.</translation>
    </message>
    <message>
        <source>Check: %1</source>
        <translation>Prüfen: %1</translation>
    </message>
    <message>
        <source>checklist</source>
        <translation>Checkliste</translation>
    </message>
    <message>
        <source>Leave this step out...  [S]</source>
        <translation>Schritt auslassen...  [S]</translation>
    </message>
    <message>
        <source>Checklist  [C]</source>
        <translation>Checkliste  [C]</translation>
    </message>
    <message>
        <source>Settings as found, read from the unit&apos;s screen</source>
        <translation>Vorgefundene Einstellungen, vom Display abgelesen</translation>
    </message>
    <message>
        <source>settings as found</source>
        <translation>vorgefundene Einstellungen</translation>
    </message>
    <message>
        <source>Hand back now  [Esc]</source>
        <translation>Jetzt zurückgeben  [Esc]</translation>
    </message>
    <message>
        <source>what the numbers are about</source>
        <translation>wovon die Zahlen handeln</translation>
    </message>
    <message>
        <source>▾ The list goes on below  [Space]</source>
        <translation>▾ Die Liste geht unten weiter  [Leertaste]</translation>
    </message>
    <message>
        <source>Preset %1 as prescribed: finished</source>
        <translation>Programm „%1“ wie verordnet: abgeschlossen</translation>
    </message>
</context>
<context>
    <name>RunText</name>
    <message>
        <source>opening the port</source>
        <translation>Anschluss wird geöffnet</translation>
    </message>
    <message>
        <source>no reading comes</source>
        <translation>kein Messwert kommt</translation>
    </message>
    <message>
        <source>the instrument is gone</source>
        <translation>das Messgerät ist weg</translation>
    </message>
    <message>
        <source>ended</source>
        <translation>beendet</translation>
    </message>
    <message>
        <source>failed</source>
        <translation>gescheitert</translation>
    </message>
    <message>
        <source>prescribed %1 / %2 cmH2O, %3 / %4 / %5 s</source>
        <translation>verordnet %1 / %2 cmH2O, %3 / %4 / %5 s</translation>
    </message>
    <message>
        <source>Order</source>
        <translation>Auftrag</translation>
    </message>
    <message>
        <source>Instrument</source>
        <translation>Messgerät</translation>
    </message>
    <message>
        <source>Zero</source>
        <translation>Nullpunkt</translation>
    </message>
    <message>
        <source>Block</source>
        <translation>Verschließen</translation>
    </message>
    <message>
        <source>Manual</source>
        <translation>Manuell</translation>
    </message>
    <message>
        <source>Automatic</source>
        <translation>Automatik</translation>
    </message>
    <message>
        <source>Zero again</source>
        <translation>Nullpunkt erneut</translation>
    </message>
    <message>
        <source>Result</source>
        <translation>Ergebnis</translation>
    </message>
    <message>
        <source>SIMULATED</source>
        <translation>SIMULIERT</translation>
    </message>
    <message>
        <source>virtual bench</source>
        <translation>virtueller Prüfplatz</translation>
    </message>
    <message>
        <source>%1 Hz</source>
        <translation>%1 Hz</translation>
    </message>
    <message>
        <source>noise %1</source>
        <translation>Rauschen %1</translation>
    </message>
    <message>
        <source>lost %1</source>
        <translation>verloren %1</translation>
    </message>
    <message>
        <source>calibration due %1</source>
        <translation>Kalibrierung fällig %1</translation>
    </message>
    <message>
        <source>unreadable bytes %1</source>
        <translation>unlesbare Bytes %1</translation>
    </message>
    <message>
        <source>not displayed %1 (they are in the file)</source>
        <translation>nicht angezeigt %1 (in der Datei vorhanden)</translation>
    </message>
    <message>
        <source>Hand back</source>
        <translation>Rückgabe</translation>
    </message>
    <message>
        <source>%1 Note the display.</source>
        <translation>%1 Anzeige notieren.</translation>
    </message>
    <message>
        <source>Waiting for your word.</source>
        <translation>Wartet auf Ihre Bestätigung.</translation>
    </message>
    <message>
        <source>Waiting for %1.</source>
        <translation>Wartet auf: %1.</translation>
    </message>
    <message>
        <source>Nothing soft, plug seen  [Space]</source>
        <translation>Nichts Weiches, Stopfen gesehen  [Leertaste]</translation>
    </message>
    <message>
        <source>rest: %1 s left</source>
        <translation>Ruhe: noch %1 s</translation>
    </message>
    <message>
        <source>blocked running: %1 s of %2 s, then %3 s rest</source>
        <translation>Lauf gegen das verschlossene Ende: %1 s von %2 s, dann %3 s Ruhe</translation>
    </message>
    <message>
        <source>Ladder</source>
        <translation>Stufenreihe</translation>
    </message>
    <message>
        <source>Checks</source>
        <translation>Prüfpunkte</translation>
    </message>
    <message>
        <source>Once more  [Space]</source>
        <translation>Noch einmal  [Leertaste]</translation>
    </message>
    <message>
        <source>Leak test</source>
        <translation>Lecktest</translation>
    </message>
    <message>
        <source>Strength</source>
        <translation>Leistung</translation>
    </message>
    <message>
        <source>Let go.</source>
        <translation>Loslassen.</translation>
    </message>
    <message>
        <source>Hold: %1 of %2 s</source>
        <translation>Halten: %1 von %2 s</translation>
    </message>
    <message>
        <source>Done  [Space]</source>
        <translation>Fertig  [Leertaste]</translation>
    </message>
</context>
<context>
    <name>ScanQuestion</name>
    <message>
        <source>which unit this is</source>
        <translation>welches Gerät das ist</translation>
    </message>
    <message>
        <source>%1 was scanned, the order is for %2, serial number %3. Which unit is on the bench?</source>
        <translation>%1 wurde gescannt, der Auftrag gilt für %2, Seriennummer %3. Welches Gerät steht auf dem Tisch?</translation>
    </message>
    <message>
        <source>It is another unit: hand it back  [1]</source>
        <translation>Es ist ein anderes Gerät: zurückgeben  [1]</translation>
    </message>
    <message>
        <source>It is the unit of the order: the wrong code was scanned  [2]</source>
        <translation>Es ist das Gerät des Auftrags: der falsche Code wurde gescannt  [2]</translation>
    </message>
</context>
<context>
    <name>SettingsFields</name>
    <message>
        <source>insufflation cmH2O</source>
        <translation>Insufflation cmH2O</translation>
    </message>
    <message>
        <source>exsufflation cmH2O</source>
        <translation>Exsufflation cmH2O</translation>
    </message>
    <message>
        <source>insufflation s</source>
        <translation>Insufflation s</translation>
    </message>
    <message>
        <source>exsufflation s</source>
        <translation>Exsufflation s</translation>
    </message>
    <message>
        <source>pause s</source>
        <translation>Pause s</translation>
    </message>
    <message>
        <source>insufflation pressure</source>
        <translation>Insufflationsdruck</translation>
    </message>
    <message>
        <source>exsufflation pressure</source>
        <translation>Exsufflationsdruck</translation>
    </message>
    <message>
        <source>insufflation duration</source>
        <translation>Insufflationsdauer</translation>
    </message>
    <message>
        <source>exsufflation duration</source>
        <translation>Exsufflationsdauer</translation>
    </message>
    <message>
        <source>pause duration</source>
        <translation>Pausendauer</translation>
    </message>
    <message>
        <source>All as prescribed  [A]</source>
        <translation>Alles wie verordnet  [A]</translation>
    </message>
    <message>
        <source>breath trigger</source>
        <translation>Atemtrigger</translation>
    </message>
    <message>
        <source>on</source>
        <translation>an</translation>
    </message>
    <message>
        <source>off</source>
        <translation>aus</translation>
    </message>
    <message>
        <source>flow</source>
        <translation>Flow</translation>
    </message>
    <message>
        <source>full</source>
        <translation>voll</translation>
    </message>
    <message>
        <source>reduced</source>
        <translation>vermindert</translation>
    </message>
    <message>
        <source>alarms</source>
        <translation>Alarme</translation>
    </message>
    <message>
        <source>mode, as the unit names it</source>
        <translation>Betriebsart, wie das Gerät sie nennt</translation>
    </message>
    <message>
        <source>mode</source>
        <translation>Betriebsart</translation>
    </message>
</context>
<context>
    <name>SigningBar</name>
    <message>
        <source>what was done last</source>
        <translation>was zuletzt geschah</translation>
    </message>
    <message>
        <source>name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>role</source>
        <translation>Funktion</translation>
    </message>
    <message>
        <source>meaning of the signature</source>
        <translation>Bedeutung der Unterschrift</translation>
    </message>
    <message>
        <source>performed by</source>
        <translation>durchgeführt von</translation>
    </message>
    <message>
        <source>reviewed by</source>
        <translation>geprüft von</translation>
    </message>
    <message>
        <source>approved by</source>
        <translation>freigegeben von</translation>
    </message>
    <message>
        <source>&amp;Sign and save</source>
        <translation>Unter&amp;schreiben und speichern</translation>
    </message>
    <message>
        <source>Sign, make the PDF, next unit  [Ctrl+Enter]</source>
        <translation>Unterschreiben, PDF, nächstes Gerät  [Strg+Eingabe]</translation>
    </message>
    <message>
        <source>leaving without a signature</source>
        <translation>ohne Unterschrift weiter</translation>
    </message>
    <message>
        <source>Nobody has signed this run: it is no record. It stays as it is, and can be opened and signed later.</source>
        <translation>Niemand hat diese Prüfung unterschrieben: sie ist kein Protokoll. Sie bleibt, wie sie ist, und kann später geöffnet und unterschrieben werden.</translation>
    </message>
    <message>
        <source>Leave it unsigned</source>
        <translation>Ohne Unterschrift weiter</translation>
    </message>
    <message>
        <source>Stay here</source>
        <translation>Hier bleiben</translation>
    </message>
    <message>
        <source>what is printed</source>
        <translation>was gedruckt wird</translation>
    </message>
    <message>
        <source>record</source>
        <translation>Protokoll</translation>
    </message>
    <message>
        <source>label</source>
        <translation>Etikett</translation>
    </message>
    <message>
        <source>copy for home</source>
        <translation>Blatt für zu Hause</translation>
    </message>
    <message>
        <source>&amp;Print...</source>
        <translation>&amp;Drucken...</translation>
    </message>
    <message>
        <source>Save as P&amp;DF...</source>
        <translation>Als P&amp;DF speichern...</translation>
    </message>
    <message>
        <source>Ne&amp;xt unit</source>
        <translation>&amp;Nächstes Gerät</translation>
    </message>
    <message>
        <source>what is done with the unit</source>
        <translation>was mit dem Gerät geschieht</translation>
    </message>
    <message>
        <source>the unit: nothing said</source>
        <translation>das Gerät: nichts gesagt</translation>
    </message>
    <message>
        <source>the unit: released for use</source>
        <translation>das Gerät: zur Benutzung freigegeben</translation>
    </message>
    <message>
        <source>the unit: kept out of use</source>
        <translation>das Gerät: außer Betrieb gehalten</translation>
    </message>
    <message>
        <source>why it is kept out of use</source>
        <translation>warum es außer Betrieb gehalten wird</translation>
    </message>
    <message>
        <source>number of the loaner, if one was arranged</source>
        <translation>Nummer des Leihgeräts, falls eines gestellt ist</translation>
    </message>
    <message>
        <source>adjusted before this run by</source>
        <translation>vor dieser Prüfung justiert durch</translation>
    </message>
    <message>
        <source>authorised</source>
        <translation>befugt</translation>
    </message>
    <message>
        <source>tag for a unit kept out of use</source>
        <translation>Anhänger für ein Gerät außer Betrieb</translation>
    </message>
</context>
<context>
    <name>SkipDialog</name>
    <message>
        <source>leave this step out</source>
        <translation>diesen Schritt auslassen</translation>
    </message>
    <message>
        <source>step</source>
        <translation>Schritt</translation>
    </message>
    <message>
        <source>reason</source>
        <translation>Grund</translation>
    </message>
    <message>
        <source>why it is left out</source>
        <translation>Grund, warum der Schritt ausgelassen wird</translation>
    </message>
    <message>
        <source>Leave it out</source>
        <translation>Auslassen</translation>
    </message>
    <message>
        <source>Do it after all  [Esc]</source>
        <translation>Doch ausführen  [Esc]</translation>
    </message>
    <message>
        <source>what it means</source>
        <translation>was es bedeutet</translation>
    </message>
    <message>
        <source>A reason is needed: the record names what was left out, and why. What was not seen does not count as passed.</source>
        <translation>Ein Grund ist nötig: Das Protokoll nennt, was ausgelassen wurde, und warum. Was nicht gesehen wurde, gilt nicht als bestanden.</translation>
    </message>
    <message>
        <source>Leave out: %1</source>
        <translation>Auslassen: %1</translation>
    </message>
</context>
<context>
    <name>StartPage</name>
    <message>
        <source>begin a run</source>
        <translation>eine Prüfung beginnen</translation>
    </message>
    <message>
        <source>what this run stands for</source>
        <translation>wofür diese Prüfung steht</translation>
    </message>
    <message>
        <source>what is wrong</source>
        <translation>was nicht stimmt</translation>
    </message>
    <message>
        <source>asset, scanned or typed</source>
        <translation>Inventarnummer, gescannt oder getippt</translation>
    </message>
    <message>
        <source>scan the unit to find its order</source>
        <translation>Gerät scannen, um seinen Auftrag zu finden</translation>
    </message>
    <message>
        <source>work order</source>
        <translation>Auftrag</translation>
    </message>
    <message>
        <source>Work order</source>
        <translation>Auftrag</translation>
    </message>
    <message>
        <source>Asset</source>
        <translation>Inventarnummer</translation>
    </message>
    <message>
        <source>Order</source>
        <translation>Auftrag</translation>
    </message>
    <message>
        <source>instrument</source>
        <translation>Messgerät</translation>
    </message>
    <message>
        <source>Instrument</source>
        <translation>Messgerät</translation>
    </message>
    <message>
        <source>Port</source>
        <translation>Anschluss</translation>
    </message>
    <message>
        <source>Simulated fault</source>
        <translation>Simulierter Fehler</translation>
    </message>
    <message>
        <source>who runs it</source>
        <translation>wer sie durchführt</translation>
    </message>
    <message>
        <source>where it is run</source>
        <translation>wo sie stattfindet</translation>
    </message>
    <message>
        <source>folder where records are kept</source>
        <translation>Ordner, in dem Protokolle liegen</translation>
    </message>
    <message>
        <source>Choose...</source>
        <translation>Wählen...</translation>
    </message>
    <message>
        <source>choose the folder where records are kept</source>
        <translation>Ordner wählen, in dem Protokolle liegen</translation>
    </message>
    <message>
        <source>Run</source>
        <translation>Prüfung</translation>
    </message>
    <message>
        <source>Operator</source>
        <translation>Durchgeführt von</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Ort</translation>
    </message>
    <message>
        <source>Records in</source>
        <translation>Protokolle in</translation>
    </message>
    <message>
        <source>before a run</source>
        <translation>vor einer Prüfung</translation>
    </message>
    <message>
        <source>Before a run</source>
        <translation>Vor einer Prüfung</translation>
    </message>
    <message>
        <source>Begin the run  [Ctrl+Enter]</source>
        <translation>Prüfung beginnen  [Strg+Eingabe]</translation>
    </message>
    <message>
        <source>Look at a record...</source>
        <translation>Protokoll ansehen...</translation>
    </message>
    <message>
        <source>Where records are kept</source>
        <translation>Wo Protokolle liegen</translation>
    </message>
    <message>
        <source>Look at a record</source>
        <translation>Protokoll ansehen</translation>
    </message>
    <message>
        <source>organisation that runs this bench</source>
        <translation>Einrichtung, die diesen Prüfplatz betreibt</translation>
    </message>
    <message>
        <source>address of the organisation</source>
        <translation>Anschrift der Einrichtung</translation>
    </message>
    <message>
        <source>Organisation, address</source>
        <translation>Einrichtung, Anschrift</translation>
    </message>
    <message>
        <source>Checklist and air in the room</source>
        <translation>Checkliste und Raumluft</translation>
    </message>
    <message>
        <source>Neither a record, nor a trace, an order or an instrument. %1</source>
        <translation>Weder Protokoll noch Kurve, Auftrag oder Messgerät. %1</translation>
    </message>
    <message>
        <source>Begin all the same: not to be sealed</source>
        <translation>Trotzdem beginnen: wird nicht versiegelt</translation>
    </message>
    <message>
        <source>None of the orders used last is for %1: open its order, or make one. The run does not begin with another unit&apos;s.</source>
        <translation>Keiner der zuletzt benutzten Aufträge gilt für %1: seinen Auftrag öffnen oder anlegen. Mit dem eines anderen Geräts beginnt keine Prüfung.</translation>
    </message>
    <message>
        <source>none is chosen yet</source>
        <translation>noch keiner gewählt</translation>
    </message>
    <message>
        <source>Scan the unit, or choose its order: only then can the run begin.</source>
        <translation>Gerät scannen oder seinen Auftrag wählen: erst dann kann die Prüfung beginnen.</translation>
    </message>
    <message>
        <source>The order is that of its last record: edit it where this check has another one.</source>
        <translation>Der Auftrag ist der des letzten Protokolls: bitte bearbeiten, wenn diese Prüfung einen anderen hat.</translation>
    </message>
    <message>
        <source>Procedure</source>
        <translation>Ablauf</translation>
    </message>
    <message>
        <source>The order is for: %1. The procedure is for: %2. Which is it? Choose the other procedure, or edit the occasion of the order.</source>
        <translation>Anlass des Auftrags: %1. Anlass des Ablaufs: %2. Was gilt? Anderen Ablauf wählen oder den Anlass im Auftrag ändern.</translation>
    </message>
</context>
<context>
    <name>StartSummary</name>
    <message>
        <source>%1, unit %2 (%3)</source>
        <translation>%1, Gerät %2 (%3)</translation>
    </message>
    <message>
        <source>%1, serial number %2, calibration due %3</source>
        <translation>%1, Seriennummer %2, Kalibrierung fällig %3</translation>
    </message>
    <message>
        <source>: lapsed. Indicative only, no statement of conformity.</source>
        <translation>: abgelaufen. Nur zur Orientierung, keine Konformitätsaussage.</translation>
    </message>
</context>
<context>
    <name>StepBar</name>
    <message>
        <source>steps of the run</source>
        <translation>Schritte der Prüfung</translation>
    </message>
    <message>
        <source>step %1 of %2: %3</source>
        <translation>Schritt %1 von %2: %3</translation>
    </message>
    <message>
        <source>%1 of %2: %3</source>
        <translation>%1 von %2: %3</translation>
    </message>
    <message>
        <source>(not done: %1)</source>
        <translation>(nicht getan: %1)</translation>
    </message>
</context>
<context>
    <name>StopPage</name>
    <message>
        <source>stop</source>
        <translation>Halt</translation>
    </message>
    <message>
        <source>what was seen</source>
        <translation>was zu sehen war</translation>
    </message>
    <message>
        <source>what it means and what to do</source>
        <translation>was es bedeutet und was zu tun ist</translation>
    </message>
    <message>
        <source>whom to call</source>
        <translation>wer anzurufen ist</translation>
    </message>
</context>
<context>
    <name>TableText</name>
    <message>
        <source>No room for: %1.</source>
        <translation>Kein Platz für: %1.</translation>
    </message>
    <message>
        <source>The list goes on below.</source>
        <translation>Die Liste geht unten weiter.</translation>
    </message>
    <message>
        <source>what the table does not show</source>
        <translation>was die Tabelle nicht zeigt</translation>
    </message>
</context>
<context>
    <name>ToleranceForm</name>
    <message>
        <source>where the tolerances come from</source>
        <translation>woher die Toleranzen stammen</translation>
    </message>
    <message>
        <source>who approved the tolerances</source>
        <translation>wer die Toleranzen freigegeben hat</translation>
    </message>
    <message>
        <source>Source</source>
        <translation>Quelle</translation>
    </message>
    <message>
        <source>Approved by</source>
        <translation>Freigegeben von</translation>
    </message>
    <message>
        <source>Pressure</source>
        <translation>Druck</translation>
    </message>
    <message>
        <source>cmH2O</source>
        <translation>cmH2O</translation>
    </message>
    <message>
        <source>Duration</source>
        <translation>Dauer</translation>
    </message>
    <message>
        <source>s</source>
        <translation>s</translation>
    </message>
    <message>
        <source>Pause residual</source>
        <translation>Restdruck in der Pause</translation>
    </message>
    <message>
        <source>Zero band</source>
        <translation>Nullband</translation>
    </message>
    <message>
        <source>back in the zero band within</source>
        <translation>zurück im Nullband binnen</translation>
    </message>
    <message>
        <source>Back to zero within</source>
        <translation>Zurück auf null binnen</translation>
    </message>
    <message>
        <source>Display</source>
        <translation>Anzeige</translation>
    </message>
    <message>
        <source>limit of the peak pressure</source>
        <translation>Grenze des Spitzendrucks</translation>
    </message>
    <message>
        <source>Peak limit</source>
        <translation>Spitzengrenze</translation>
    </message>
    <message>
        <source>%1, absolute</source>
        <translation>%1, absolut</translation>
    </message>
    <message>
        <source>%1, relative</source>
        <translation>%1, relativ</translation>
    </message>
    <message>
        <source>%</source>
        <translation>%</translation>
    </message>
    <message>
        <source>manual or rule, with its section</source>
        <translation>Handbuch oder Regel, mit Abschnitt</translation>
    </message>
    <message>
        <source>who answers for these figures here</source>
        <translation>wer hier für diese Zahlen einsteht</translation>
    </message>
</context>
<context>
    <name>TraceChart</name>
    <message>
        <source>trace of the pressure</source>
        <translation>Druckkurve</translation>
    </message>
    <message>
        <source>Plus and minus zoom, arrow keys move, Home shows all, End goes back to live.</source>
        <translation>Plus und Minus zoomen, Pfeiltasten schieben, Pos1 zeigt alles, Ende kehrt zur laufenden Kurve zurück.</translation>
    </message>
    <message>
        <source>Back to live</source>
        <translation>Zurück zur laufenden Kurve</translation>
    </message>
    <message>
        <source>%1 s: %2 cmH2O</source>
        <translation>%1 s: %2 cmH2O</translation>
    </message>
    <message>
        <source>seconds from the beginning</source>
        <translation>Sekunden ab Beginn</translation>
    </message>
    <message>
        <source>cmH2O</source>
        <translation>cmH2O</translation>
    </message>
    <message>
        <source>seconds from now</source>
        <translation>Sekunden ab jetzt</translation>
    </message>
    <message>
        <source>%1; in brackets: not judged</source>
        <translation>%1; in Klammern: nicht beurteilt</translation>
    </message>
</context>
<context>
    <name>TrendCard</name>
    <message>
        <source>quantity</source>
        <translation>Größe</translation>
    </message>
    <message>
        <source>how it drifts</source>
        <translation>wie es driftet</translation>
    </message>
    <message>
        <source>A line is drawn from four visits on.</source>
        <translation>Eine Gerade gibt es ab vier Prüfungen.</translation>
    </message>
</context>
<context>
    <name>TrendChart</name>
    <message>
        <source>how a quantity went over the visits</source>
        <translation>Verlauf einer Größe über die Prüfungen</translation>
    </message>
    <message>
        <source>Plus and minus zoom, arrow keys move, Home shows all.</source>
        <translation>Plus und Minus zoomen, Pfeiltasten schieben, Pos1 zeigt alles.</translation>
    </message>
</context>
<context>
    <name>TrendPictureWords</name>
    <message>
        <source>off by, %1</source>
        <translation>Abweichung, %1</translation>
    </message>
    <message>
        <source>tolerance</source>
        <translation>Toleranz</translation>
    </message>
    <message>
        <source>U</source>
        <translation>U</translation>
    </message>
    <message>
        <source>mean</source>
        <translation>Mittelwert</translation>
    </message>
    <message>
        <source>control limits (XmR)</source>
        <translation>Eingriffsgrenzen (XmR)</translation>
    </message>
</context>
<context>
    <name>TrendWords</name>
    <message>
        <source>indication less reference</source>
        <translation>Anzeige minus Bezugswert</translation>
    </message>
    <message>
        <source>%1 %2 a year (standard uncertainty %3).</source>
        <translation>%1 %2 im Jahr (Standardunsicherheit %3).</translation>
    </message>
    <message>
        <source>The 95 % band of the line reaches the limit on %1.</source>
        <translation>Das 95-%-Band der Geraden erreicht die Grenze am %1.</translation>
    </message>
    <message>
        <source>Next check: %1, as the interval says.</source>
        <translation>Nächste Prüfung: %1, laut Intervall.</translation>
    </message>
    <message>
        <source>indication less second gauge</source>
        <translation>Anzeige minus zweites Messgerät</translation>
    </message>
    <message>
        <source>The next check was due on %1, as the interval says.</source>
        <translation>Die nächste Prüfung war laut Intervall am %1 fällig.</translation>
    </message>
    <message>
        <source>Check it sooner: %1 may reach its limit on %2.</source>
        <translation>Früher prüfen: „%1“ kann am %2 die Grenze erreichen.</translation>
    </message>
    <message>
        <source>Check it sooner: %1 was at its limit or near it at the visit of %2.</source>
        <translation>Früher prüfen: „%1“ war schon bei der Prüfung vom %2 an der Grenze oder nahe daran.</translation>
    </message>
</context>
<context>
    <name>UnitCard</name>
    <message>
        <source>one unit</source>
        <translation>ein Gerät</translation>
    </message>
    <message>
        <source>visits of this unit</source>
        <translation>Prüfungen dieses Geräts</translation>
    </message>
    <message>
        <source>Visits</source>
        <translation>Prüfungen</translation>
    </message>
    <message>
        <source>asset number</source>
        <translation>Inventarnummer</translation>
    </message>
    <message>
        <source>what is known of it</source>
        <translation>was darüber bekannt ist</translation>
    </message>
    <message>
        <source>Begin a run with this unit</source>
        <translation>Prüfung mit diesem Gerät beginnen</translation>
    </message>
    <message>
        <source>Open the record</source>
        <translation>Protokoll öffnen</translation>
    </message>
    <message>
        <source>Over the visits, as found</source>
        <translation>Über die Prüfungen, wie vorgefunden</translation>
    </message>
    <message>
        <source>preset</source>
        <translation>Programm</translation>
    </message>
    <message>
        <source>which visits are shown</source>
        <translation>welche Prüfungen gezeigt werden</translation>
    </message>
    <message>
        <source>Cycles of this visit and of the one before</source>
        <translation>Zyklen dieser Prüfung und der davor</translation>
    </message>
    <message>
        <source>day</source>
        <translation>Tag</translation>
    </message>
    <message>
        <source>verdict</source>
        <translation>Urteil</translation>
    </message>
    <message>
        <source>origin</source>
        <translation>Herkunft</translation>
    </message>
    <message>
        <source>order</source>
        <translation>Auftrag</translation>
    </message>
    <message>
        <source>occasion</source>
        <translation>Anlass</translation>
    </message>
    <message>
        <source>instrument</source>
        <translation>Messgerät</translation>
    </message>
    <message>
        <source>signed by</source>
        <translation>unterschrieben von</translation>
    </message>
    <message>
        <source>serial number %1</source>
        <translation>Seriennummer %1</translation>
    </message>
    <message>
        <source>No visit captured here: nothing is said about drift.</source>
        <translation>Keine hier aufgenommene Prüfung: über Drift wird nichts gesagt.</translation>
    </message>
    <message>
        <source>The folder of this record is not where it was.</source>
        <translation>Der Ordner dieses Protokolls ist nicht mehr, wo er war.</translation>
    </message>
    <message>
        <source>No visit before that could be read.</source>
        <translation>Keine frühere Prüfung, die sich lesen ließe.</translation>
    </message>
    <message>
        <source>where they are from</source>
        <translation>woher sie sind</translation>
    </message>
    <message>
        <source>this visit: %1</source>
        <translation>diese Prüfung: %1</translation>
    </message>
    <message>
        <source>visit before: %1</source>
        <translation>Prüfung davor: %1</translation>
    </message>
</context>
<context>
    <name>WiringView</name>
    <message>
        <source>unit</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>keys of the unit</source>
        <translation>Tasten des Geräts</translation>
    </message>
    <message>
        <source>lever</source>
        <translation>Hebel</translation>
    </message>
    <message>
        <source>plug</source>
        <translation>Stopfen</translation>
    </message>
    <message>
        <source>sensing line</source>
        <translation>Messleitung</translation>
    </message>
    <message>
        <source>transducer</source>
        <translation>Druckaufnehmer</translation>
    </message>
    <message>
        <source>computer</source>
        <translation>Rechner</translation>
    </message>
    <message>
        <source>the wiring, and what to touch now</source>
        <translation>der Aufbau, und was jetzt anzufassen ist</translation>
    </message>
    <message>
        <source>To touch now: %1</source>
        <translation>Jetzt anzufassen: %1</translation>
    </message>
    <message>
        <source>hose</source>
        <translation>Schlauch</translation>
    </message>
    <message>
        <source>tee</source>
        <translation>T-Stück</translation>
    </message>
</context>
</TS>
