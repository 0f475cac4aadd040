#pragma once

#include "fixtures/virtual_bench/virtual_bench.hpp"
#include "gui/records/panel_file.hpp"
#include "gui/session/bench_hand.hpp"
#include "gui/session/result_words.hpp"

#include <QTemporaryDir>

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

namespace zeroline::session {

/// A fault that can be tried on the virtual bench, for a list to choose from.
struct OfferedFault {
    std::string code;
    QString does; ///< in the language of its reader

    /// A line of a list; without a code what it does by itself.
    [[nodiscard]] QString line() const
    {
        const auto word = QString::fromStdString(code);
        return word.isEmpty() ? does : word + QStringLiteral(" \u2013 ") + does;
    }
};
[[nodiscard]] std::vector<OfferedFault> offered_faults(Reader reader);

/// The virtual bench inside this program, with a hand that does what a run asks for: opens the line, shuts the hose,
/// toggles, starts and stops the unit. Whatever is captured on its port is marked as simulated.
class SimulatedBench {
public:
    /// `faults` as on the command line (`CODE[=SIZE][@CYCLE|@SECONDSs]`). Throws trace::InputError.
    SimulatedBench(const verification::WorkOrder& order, const trace::Instrument& instrument,
                   const std::vector<std::string>& faults, std::uint64_t seed = 1);

    /// A path that stays the same when the simulated adapter is pulled and put back.
    [[nodiscard]] std::string port() const;

    /// The file that the front panel is kept in.
    [[nodiscard]] std::filesystem::path panel_file() const;
    /// A record folder that goes with the bench: nothing is left of it.
    [[nodiscard]] std::filesystem::path passing_folder() const;

    /// Lets the hand do what the run asks for at this moment.
    void follow(const RunView& view);

    /// What the front panel shows by now.
    [[nodiscard]] records::Panel panel() const;

private:
    const verification::WorkOrder order_;
    QTemporaryDir folder_;
    std::unique_ptr<virtual_bench::VirtualBench> bench_;
    BenchHand hand_;
};

} // namespace zeroline::session
