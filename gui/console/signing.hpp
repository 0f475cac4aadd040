#pragma once

#include "gui/console/terminal.hpp"
#include "gui/records/evidence_files.hpp"
#include "gui/records/sealing.hpp"
#include "gui/register/delivery.hpp"

#include <filesystem>
#include <optional>
#include <string>

namespace CLI {
class App;
}

namespace zeroline::console {

/// Who signs, as typed.
struct SigningOptions {
    std::string signer, role, meaning, number;
};
void add_signing_options(CLI::App& command, SigningOptions& options);

/// What a record in the making may still lack, as typed.
struct LackingOptions {
    std::string place, customer;
};
void add_lacking_options(CLI::App& command, LackingOptions& options);

/// Who is asked for what the command line does not say.
enum class Ask {
    person,   ///< the person at the terminal
    nobody,   ///< what was not said is missing
    simulated ///< the operator of a simulated run signs
};

/// The key of the bench, read when it is first needed; made where there is none yet.
[[nodiscard]] records::Unlock bench_key(const std::optional<std::filesystem::path>& bench);

/// Puts place and customer, as typed or asked for, into the files of a record in the making, and the organisation of
/// `bench` where it has none; its journal says so. True where something was put in: the evidence is then to be loaded
/// again.
bool put_lacking(const records::RecordFolder& record, const records::LoadedEvidence& evidence,
                 const LackingOptions& options, const std::optional<std::filesystem::path>& bench, Terminal& terminal,
                 Ask ask);

/// What is done with the unit, as typed.
struct DispositionOptions {
    bool release = false, authorised = false;
    std::string keep_out, loaner, adjusted_by;
};
void add_disposition_options(CLI::App& command, DispositionOptions& options);

/// Puts what is done with the unit into the run log of a record in the making: as typed, or as a person answers who is
/// asked after a fail. Evidence and assessment are then those of the changed record, and the answer is true. A release
/// that the result does not allow is told and left out.
bool put_disposition(const records::RecordFolder& record, records::LoadedEvidence& evidence,
                     records::Assessed& assessed, const DispositionOptions& options,
                     const std::optional<std::filesystem::path>& bench, Terminal& terminal, Ask ask);

/// The signature: as typed, or as asked for, made now. An empty name: nobody signs.
[[nodiscard]] records::Signature signature_for(const SigningOptions& options, const records::LoadedEvidence& evidence,
                                               Terminal& terminal, Ask ask);

/// Signs, seals and renames a record whose evidence is complete; says on standard error what is missing where it
/// cannot be sealed. Throws trace::InputError; the FOLDER.part then stays and is named.
[[nodiscard]] records::Sealing sign_and_seal(const records::RecordFolder& record,
                                             const records::LoadedEvidence& evidence, const records::Assessed& assessed,
                                             const SigningOptions& options, const unit_register::Bench& bench,
                                             Terminal& terminal, Ask ask);

} // namespace zeroline::console
