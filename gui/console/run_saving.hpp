#pragma once

#include "gui/console/terminal.hpp"
#include "gui/console/verify_options.hpp"
#include "gui/records/capture_journal.hpp"
#include "gui/session/bench_run.hpp"
#include "gui/session/trace_witness.hpp"

#include <functional>
#include <string>

namespace zeroline::console {

/// Where the run was made: a pseudo-terminal is a simulated instrument.
[[nodiscard]] verification::Origin origin_of(const VerifyOptions& options);

/// Run log and journal of a run at the terminal while it goes on. The unit must be given back whatever the disk does:
/// what cannot be saved is said once and kept as trouble(), and throws nothing. Must outlive the capture.
class RunSaving {
public:
    /// Begins the journal. Throws trace::InputError.
    RunSaving(const VerifyOptions& options, const RunInputs& inputs, const records::RecordFolder& folder,
              Terminal& terminal);

    [[nodiscard]] serial::TraceWitness witness() { return session::witness_of(journal_); }
    void log(const verification::RunLog& log);
    void end(session::Ending ending);
    [[nodiscard]] const std::string& trouble() const noexcept { return trouble_; }

private:
    void saving(const std::function<void()>& save);

    const records::RecordFolder& folder_;
    Terminal& terminal_;
    records::CaptureJournal journal_;
    std::string trouble_;
};

} // namespace zeroline::console
