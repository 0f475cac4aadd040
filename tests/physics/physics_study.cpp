// Prints how the product measures simulated units beside the plain definitions (docs/accuracy.md).
//
//   physics_study [--family NAME]... [--rate HZ]... [--draws N] [--seed N] [--group NAME] [--json] [--worst N]

#include "tests/physics/study.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>

namespace {

using namespace zeroline;
using namespace zeroline::physics_study;

struct Options {
    StudyPlan plan;
    bool json = false;
    std::size_t worst = 0;
    bool families_named = false, rates_named = false;
};

[[noreturn]] void refuse(const std::string& what)
{
    std::fprintf(stderr, "physics_study: %s\n", what.c_str());
    std::exit(2);
}

physics::Family family_named(const std::string& name)
{
    for (const auto family : physics::all_families())
        if (physics::word_of(family) == name)
            return family;
    refuse("'" + name + "' is no family");
}

void take(Options& options, const std::string& name, const std::string& value)
{
    StudyPlan& plan = options.plan;
    if (name == "--family") {
        if (!std::exchange(options.families_named, true))
            plan.families.clear();
        plan.families.push_back(family_named(value));
    } else if (name == "--rate") {
        if (!std::exchange(options.rates_named, true))
            plan.rates_hz.clear();
        plan.rates_hz.push_back(std::stod(value));
    } else if (name == "--draws") {
        plan.draws = std::stoi(value);
    } else if (name == "--seed") {
        plan.seed = std::stoull(value);
    } else if (name == "--worst") {
        options.worst = std::stoul(value);
    } else {
        refuse("unknown option " + name);
    }
}

Options read(int count, char** words)
{
    Options options;
    for (int i = 1; i < count; ++i) {
        const std::string name = words[i];
        if (name == "--json")
            options.json = true;
        else if (i + 1 < count)
            take(options, name, words[++i]);
        else
            refuse(name + " needs a value");
    }
    return options;
}

void print_json(const Study& study)
{
    auto list = nlohmann::json::array();
    for (const Comparison& one : study.all)
        list.push_back({{"family", physics::word_of(one.family)},
                        {"rate_hz", one.rate_hz},
                        {"seed", one.seed},
                        {"group", word_of(one.group)},
                        {"cycle", one.cycle},
                        {"measurand", one.measurand},
                        {"error", one.error},
                        {"plain_error", one.plain_error},
                        {"U", one.U}});
    std::printf("%s\n", list.dump(1).c_str());
}

void print_worst(const Study& study, std::size_t how_many)
{
    std::vector<const Comparison*> all;
    for (const Comparison& one : study.all)
        all.push_back(&one);
    std::sort(all.begin(), all.end(),
              [](const auto* a, const auto* b) { return std::abs(a->error) / a->U > std::abs(b->error) / b->U; });
    std::printf("\nThe values that U covers least:\n");
    for (std::size_t i = 0; i < std::min(how_many, all.size()); ++i)
        std::printf("%-12s %5.0f Hz seed %-8llu cycle %d %-34s error %9.5f plain %9.5f U %8.5f\n",
                    physics::word_of(all[i]->family).c_str(), all[i]->rate_hz,
                    static_cast<unsigned long long>(all[i]->seed), all[i]->cycle, all[i]->measurand.c_str(),
                    all[i]->error, all[i]->plain_error, all[i]->U);
}

} // namespace

int main(int count, char** words)
{
    const Options options = read(count, words);
    const Study study = carried_out(options.plan);
    if (options.json) {
        print_json(study);
        return 0;
    }
    std::printf("%zu traces, %zu values, %zu that the product did not give.\n\n", study.traces, study.all.size(),
                study.missing);
    for (const Group group : kGroups)
        std::printf("%s\n", markdown(study, options.plan, group).c_str());
    if (options.worst > 0)
        print_worst(study, options.worst);
}
