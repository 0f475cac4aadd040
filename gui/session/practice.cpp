#include "gui/session/practice.hpp"

#include "fixtures/virtual_bench/virtual_bench.hpp"
#include "gui/session/bench_session.hpp"
#include "gui/session/number_text.hpp"
#include "gui/session/run_files.hpp"

#include <algorithm>
#include <array>
#include <random>
#include <string_view>

namespace zeroline::session {

using virtual_bench::KnownFault;

namespace {

constexpr int kHealthyOneIn = 6;

// At a closed hose end nothing shows of the first two; the last one never comes back.
constexpr std::array<std::string_view, 3> kNotPractised{"worn-blower", "clock-error", "unplugged"};

// "What a blocked outlet cannot tell apart" (docs/diagnosis.md), by what the bench plays.
const std::vector<std::vector<std::string_view>>& look_alikes()
{
    static const std::vector<std::vector<std::string_view>> groups{{"weak-blower", "leak", "leaky-plug", "span-error"},
                                                                   {"low-exsufflation", "one-way-leak"},
                                                                   {"blocked-filter", "kinked-line", "lung"},
                                                                   {"breathing", "breathing-lung"},
                                                                   {"dropped-samples", "garbage-bytes", "torn-frames"}};
    return groups;
}

bool is_practised(const KnownFault& fault, const verification::WorkOrder& order)
{
    const bool oscillates = std::any_of(order.presets.begin(), order.presets.end(),
                                        [](const auto& preset) { return preset.oscillation.has_value(); });
    return std::find(kNotPractised.begin(), kNotPractised.end(), fault.code) == kNotPractised.end() &&
           (oscillates || fault.code != "oscillation-weak");
}

/// "weak-blower, 15 %: both pressures ..."
QString what_it_was(const PracticeTask& task, const ResultWords& words, Reader reader)
{
    const auto all = practice_answers(reader);
    const auto fault = std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.code == task.code; });
    if (task.code.empty()) {
        return fault->does;
    }
    const auto size =
        task.size ? QStringLiteral(", %1 %2").arg(words.numerals().plain(task.size), QString::fromStdString(task.unit))
                  : QString();
    return QString::fromStdString(task.code) + size + QStringLiteral(": ") + fault->does;
}

QString words_of(Guess guess, const ResultWords& words)
{
    switch (guess) {
    case Guess::right:
        return words.say(QT_TRANSLATE_NOOP("Result", "Right."));
    case Guess::alike:
        return words.say(QT_TRANSLATE_NOOP("Result", "Near: a run at a closed hose end does not tell the two apart."));
    case Guess::wrong:
        break;
    }
    return words.say(QT_TRANSLATE_NOOP("Result", "It was something else."));
}

} // namespace

std::vector<std::string> PracticeTask::faults() const
{
    if (code.empty()) {
        return {};
    }
    return {code + (size ? "=" + number_text(*size) : std::string())};
}

PracticeTask draw_task(const verification::WorkOrder& order, std::uint64_t seed)
{
    std::vector<KnownFault> faults;
    for (const auto& fault : virtual_bench::known_faults()) {
        if (is_practised(fault, order)) {
            faults.push_back(fault);
        }
    }
    std::mt19937_64 random(seed); // the remainders: the same everywhere, and even enough for a game
    PracticeTask task;
    task.seed = random() % 1'000'000 + 1;
    if (random() % kHealthyOneIn == 0) {
        return task;
    }
    const auto& fault = faults[random() % faults.size()];
    task.code = fault.code;
    if (!fault.unit.empty()) {
        task.size = std::array{fault.small, fault.middle, fault.large}.at(random() % 3);
        task.unit = fault.unit;
    }
    return task;
}

PracticeTask draw_task(const verification::WorkOrder& order)
{
    std::random_device device;
    return draw_task(order, (std::uint64_t{device()} << 32U) | device());
}

records::Read<verification::WorkOrder> practice_order(const verification::WorkOrder& order)
{
    auto marked = order;
    marked.work_order = kPracticeMark;
    return order_from_text(text_of(marked));
}

void turn_into_practice(RunSetUp& made)
{
    made.order = practice_order(made.order.meaning);
    made.practice = draw_task(made.order.meaning);
    made.simulated = std::make_shared<SimulatedBench>(made.order.meaning, made.instrument.meaning,
                                                      made.practice->faults(), made.practice->seed);
    made.port = made.simulated->port();
    made.folder = made.simulated->passing_folder();
    made.key = records::SigningKey::make();
    made.instrument_file.clear(); // no check of the instrument is kept
    made.replaces.reset();
    made.as_found.reset();
}

std::vector<OfferedFault> practice_answers(Reader reader)
{
    auto answers = offered_faults(reader);
    answers.insert(answers.begin(),
                   {{}, ResultWords(reader).say(QT_TRANSLATE_NOOP("Result", "nothing: a healthy unit"))});
    return answers;
}

Guess judge_guess(const PracticeTask& task, const std::string& answer)
{
    if (answer == task.code) {
        return Guess::right;
    }
    const auto holds = [](const auto& group, const std::string& code) {
        return std::find(group.begin(), group.end(), code) != group.end();
    };
    const auto& groups = look_alikes();
    return std::any_of(groups.begin(), groups.end(),
                       [&](const auto& group) { return holds(group, answer) && holds(group, task.code); })
               ? Guess::alike
               : Guess::wrong;
}

QStringList practice_told(const PracticeTask& task, const std::string& answer, const ResultView& result, Reader reader)
{
    const ResultWords words(reader);
    QStringList told{words_of(judge_guess(task, answer), words) + u' ' +
                     words.say(QT_TRANSLATE_NOOP("Result", "It was %1.")).arg(what_it_was(task, words, reader))};
    const bool any = !result.findings.empty();
    if (any) {
        told << words.say(QT_TRANSLATE_NOOP("Result", "What told it:"));
    } else if (task.code.empty()) {
        told << words.say(QT_TRANSLATE_NOOP("Result", "Nothing stood out in the trace."));
    } else {
        told << words.say(
            QT_TRANSLATE_NOOP("Result", "Nothing in this run told it: it is too small, or the run ended too soon."));
    }
    for (const auto& finding : result.findings) {
        told << finding.severity + QStringLiteral(": ") + finding.text;
    }
    return told;
}

void mark_as_practice(ResultView& result, const QStringList& told, Reader reader)
{
    if (told.isEmpty()) {
        return;
    }
    const ResultWords words(reader);
    result.banner = {words.say(kPractice), words.say(kSimulated)};
    result.to_do = told;
}

} // namespace zeroline::session
