#pragma once

#include "gui/records/evidence_files.hpp"
#include "gui/session/result_view.hpp"
#include "gui/session/simulated_bench.hpp"

#include <QStringList>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace zeroline::session {

struct RunSetUp;

/// What stands above everything of a practice, and what its order is called: nothing of it is a record.
inline constexpr const char* kPractice =
    QT_TRANSLATE_NOOP("Result", "PRACTICE: the virtual bench has chosen what is wrong, or nothing. No record is made.");
inline constexpr const char* kPracticeMark = "PRACTICE";

/// What the virtual bench was told to play, unseen by whoever practises.
struct PracticeTask {
    std::string code;           ///< empty: a healthy unit
    std::optional<double> size; ///< none: the fault has none
    std::string unit;           ///< of the size
    std::uint64_t seed = 0;     ///< of the bench

    /// As the virtual bench takes them: none or one.
    [[nodiscard]] std::vector<std::string> faults() const;
};

/// Draws a fault and its size, or now and then none. Same seed, same task. Left out is what no run at a closed hose end
/// can show, what never ends, and an oscillation that lacks something where none is prescribed.
[[nodiscard]] PracticeTask draw_task(const verification::WorkOrder& order, std::uint64_t seed);
/// The same from a seed that nobody knows.
[[nodiscard]] PracticeTask draw_task(const verification::WorkOrder& order);

/// The order under the mark of a practice: also a folder left by a killed program says what it is.
[[nodiscard]] records::Read<verification::WorkOrder> practice_order(const verification::WorkOrder& order);

/// A run with a bench that draws its task. Nothing of it is kept: it goes with the bench, and its journal is signed by
/// a key that is thrown away. Throws trace::InputError.
void turn_into_practice(RunSetUp& made);

/// The answers to choose from: what the bench can play, in plain words. The first one, without a code, is a healthy
/// unit.
[[nodiscard]] std::vector<OfferedFault> practice_answers(Reader reader);

enum class Guess { right, alike, wrong };

/// Alike: a run at a closed hose end does not tell the two apart (docs/diagnosis.md).
[[nodiscard]] Guess judge_guess(const PracticeTask& task, const std::string& answer);

/// What it was, of which size, and what in the result told it, in the findings' own words; a sentence a line.
[[nodiscard]] QStringList practice_told(const PracticeTask& task, const std::string& answer, const ResultView& result,
                                        Reader reader);

/// Marks the result of a practice: what it is in place of what it lacks to be a record, and `told` in place of what to
/// do with a unit, as there is none. Does nothing where `told` is empty: no practice.
void mark_as_practice(ResultView& result, const QStringList& told, Reader reader);

} // namespace zeroline::session
