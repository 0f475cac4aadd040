"""What a FHIR R4 bundle of the register must be, written from the pages of the standard (HL7 FHIR 4.0.1, from memory): the
elements a resource may and must have, its codes, the forms of id, instant and dateTime, and references that lead somewhere."""
import re

# Elements of each resource and of what stands in it; "!" marks those that the standard requires (1..1 or 1..*).
ELEMENTS = {
    "Bundle": "resourceType! id meta type! timestamp entry",
    "Device": "resourceType! id meta identifier serialNumber modelNumber deviceName type",
    "DiagnosticReport": "resourceType! id meta identifier status! code! subject effectiveDateTime issued performer result conclusion",
    "Observation": "resourceType! id meta status! code! subject effectiveDateTime valueQuantity dataAbsentReason interpretation device "
                   "referenceRange component",
    "entry": "fullUrl resource!", "identifier": "system value", "deviceName": "name! type!", "code": "coding text", "type": "coding text",
    "coding": "system code display", "interpretation": "coding text", "dataAbsentReason": "coding text",
    "component": "code! valueQuantity", "referenceRange": "low high text", "subject": "reference display", "device": "reference display",
    "result": "reference display", "performer": "reference display", "meta": "tag", "tag": "system code display",
    "valueQuantity": "value unit system code", "low": "value unit system code", "high": "value unit system code",
}
LISTS = {"entry", "identifier", "deviceName", "coding", "interpretation", "component", "referenceRange", "result", "performer", "tag"}
CODES = {("Bundle", "type"): {"document", "message", "transaction", "transaction-response", "batch", "batch-response", "history",
                              "searchset", "collection"},
         ("DiagnosticReport", "status"): {"registered", "partial", "preliminary", "final", "amended", "corrected", "appended",
                                          "cancelled", "entered-in-error", "unknown"},
         ("Observation", "status"): {"registered", "preliminary", "final", "amended", "corrected", "cancelled", "entered-in-error",
                                     "unknown"},
         ("deviceName", "type"): {"udi-label-name", "user-friendly-name", "patient-reported-name", "manufacturer-name", "model-name",
                                  "other"}}
# Plain values that have the name of an element with elements of its own.
PLAIN = {("Bundle", "type"), ("deviceName", "type"), *((kind, "code") for kind in ("coding", "tag", "valueQuantity", "low", "high"))}
UCUM = {"cmH2O": "cm[H2O]", "s": "s", "Hz": "Hz"}
FORMS = {"id": r"[A-Za-z0-9\-.]{1,64}",
         "effectiveDateTime": r"\d{4}(-\d\d(-\d\d(T\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d))?)?)?",
         "issued": r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)",
         "timestamp": r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)",
         "fullUrl": r"urn:uuid:[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}"}


def troubles_of(bundle):
    troubles, references = [], []

    def look(kind, tree, path):
        allowed = ELEMENTS[kind].split()
        for element in allowed:
            if element.endswith("!") and element[:-1] not in tree:
                troubles.append(f"{path}: {element[:-1]} is required")
        for element, value in tree.items():
            place = f"{path}.{element}"
            if element not in [name.rstrip("!") for name in allowed]:
                troubles.append(f"{place}: no element of {kind}")
            elif (kind, element) in CODES and value not in CODES[kind, element]:
                troubles.append(f"{place}: {value} is no code of the standard")
            elif element in FORMS and not re.fullmatch(FORMS[element], value):
                troubles.append(f"{place}: {value}")
            if value in ("", None, [], {}):
                troubles.append(f"{place}: empty")
            if element == "reference":
                references.append((place, value))
            if element == "resource":
                look(value["resourceType"], value, place)
            elif isinstance(value, list) != (element in LISTS):
                troubles.append(f"{place}: a list, or none, where the other is due")
            elif element in ELEMENTS and (kind, element) not in PLAIN:
                for one in value if isinstance(value, list) else [value]:
                    if isinstance(one, dict):
                        look(element, one, place)
                    else:
                        troubles.append(f"{place}: {one} where elements are due")
        if "value" in tree and "unit" in tree:
            if not isinstance(tree["value"], (int, float)) or tree.get("system") != "http://unitsofmeasure.org":
                troubles.append(f"{path}: no quantity of UCUM")
            if tree.get("code") != UCUM[tree["unit"]]:
                troubles.append(f"{path}: {tree.get('code')} is not the code of {tree['unit']}")
        if "valueQuantity" in tree and "dataAbsentReason" in tree:
            troubles.append(f"{path}: a value, and a reason why there is none")

    look("Bundle", bundle, "Bundle")
    kinds = {entry["fullUrl"]: entry["resource"]["resourceType"] for entry in bundle.get("entry", [])}
    if len(kinds) != len(bundle.get("entry", [])):
        troubles.append("two entries of one address")
    for place, target in references:
        wanted = "Observation" if ".result" in place else "Device"
        if kinds.get(target) != wanted:
            troubles.append(f"{place}: leads to {kinds.get(target)}, not to a {wanted}")
    if "Patient" in kinds.values():
        troubles.append("a Patient")
    return troubles
