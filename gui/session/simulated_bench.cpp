#include "gui/session/simulated_bench.hpp"

#include "acquisition/trace/input_error.hpp"

#include <QCoreApplication>

namespace zeroline::session {

namespace {

std::filesystem::path inside(const QTemporaryDir& folder, const char* name)
{
    return std::filesystem::path(folder.path().toStdString()) / name;
}

} // namespace

std::vector<OfferedFault> offered_faults(Reader reader)
{
    std::vector<OfferedFault> offered;
    for (const auto& fault : virtual_bench::known_faults()) {
        offered.push_back({fault.code, reader == Reader::screen
                                           ? QCoreApplication::translate("Fault", fault.does.c_str())
                                           : QString::fromStdString(fault.does)});
    }
    return offered;
}

SimulatedBench::SimulatedBench(const verification::WorkOrder& order, const trace::Instrument& instrument,
                               const std::vector<std::string>& faults, std::uint64_t seed)
    : order_(order)
{
    if (!folder_.isValid()) {
        throw trace::InputError(folder_.path().toStdString(), "cannot be created", "a place for temporary files");
    }
    virtual_bench::BenchSettings settings;
    settings.order = order;
    settings.instrument = instrument;
    settings.seed = seed;
    for (const auto& fault : faults) {
        settings.faults.push_back(virtual_bench::parse_fault(fault));
    }
    // The usual script says how long a run is; the hand takes over from the beginning.
    settings.restart = false;
    settings.link = inside(folder_, "virtual-bench");
    settings.panel = panel_file();
    bench_ = std::make_unique<virtual_bench::VirtualBench>(std::move(settings));
    bench_->act({virtual_bench::Action::Kind::open_to_air, 0.0, {}, 0});
}

std::string SimulatedBench::port() const { return inside(folder_, "virtual-bench").string(); }

std::filesystem::path SimulatedBench::panel_file() const { return inside(folder_, "panel.json"); }

std::filesystem::path SimulatedBench::passing_folder() const { return inside(folder_, "practice"); }

records::Panel SimulatedBench::panel() const { return records::load_panel(panel_file(), order_); }

void SimulatedBench::follow(const RunView& view)
{
    for (const auto& action : hand_.next(view)) {
        bench_->follow(action);
    }
}

} // namespace zeroline::session
