#include "tests/house/house_rules.hpp"
#include "tests/temporary_folder.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

namespace zeroline::house {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

const fs::path kSources = ZEROLINE_SOURCE_DIR;

Architecture our_rules() { return read_architecture(kSources / "docs/architecture.md"); }

TEST(Layering, NoPartIncludesWhatItMayNotKnow)
{
    EXPECT_THAT(wrong_directions(our_rules(), includes_below(kSources), kSources), IsEmpty());
}

TEST(Layering, OutsideLibrariesStayInTheirPlace)
{
    EXPECT_THAT(stray_libraries(our_rules(), includes_below(kSources)), IsEmpty());
}

TEST(Layering, AsioIsNeverIncludedWithoutUtilityBeforeIt)
{
    EXPECT_THAT(asio_without_utility(includes_below(kSources)), IsEmpty());
}

TEST(Layering, NoLibraryLinksWhatItMayNotKnow)
{
    const auto links = read_link_lists(ZEROLINE_LINK_LISTS);
    EXPECT_THAT(links, testing::Contains(testing::Field(&LinkList::target, "zeroline_analysis")));
    EXPECT_THAT(wrong_links(our_rules(), links), IsEmpty());
}

TEST(Layering, OnlyAgreedNamesStandAtTheTop) { EXPECT_THAT(wrong_names_at_the_top(our_rules(), kSources), IsEmpty()); }

TEST(Layering, EveryPartOfThePageHasAFolder)
{
    for (const auto& part : our_rules().parts)
        EXPECT_TRUE(fs::exists(kSources / part.part)) << part.part;
}

/// The rules above are worth nothing unless they can fail: a small tree with known sins.
class SinfulTree : public testing::Test {
protected:
    void SetUp() override
    {
        write("acquisition/trace/trace.hpp", "#pragma once\n");
        write("acquisition/serial/capture.hpp", "#include \"acquisition/trace/trace.hpp\"\n");
        write("analysis/judge.cpp", "#include \"acquisition/trace/trace.hpp\"\n#include <vector>\n");
    }

    void write(const std::string& file, const std::string& text) const
    {
        fs::create_directories((root_ / file).parent_path());
        std::ofstream(root_ / file) << text;
    }
    Complaints directions() const { return wrong_directions(rules_, includes_below(root_), root_); }

    TemporaryFolder folder_;
    const fs::path& root_ = folder_.path();
    Architecture rules_{{{"acquisition/trace", "zeroline_trace", {}, {"outside::json"}},
                         {"acquisition/serial", "zeroline_serial", {"acquisition/trace"}, {}},
                         {"analysis", "zeroline_analysis", {"acquisition/trace"}, {}}},
                        {{"Asio", {"boost/asio"}, "acquisition/serial", 1, std::nullopt},
                         {"libserialport", {"libserialport.h"}, "acquisition/serial", 0, 1}},
                        {"acquisition", "analysis"}};
};

TEST_F(SinfulTree, IsCleanBeforeTheFirstSin)
{
    EXPECT_THAT(directions(), IsEmpty());
    EXPECT_THAT(wrong_names_at_the_top(rules_, root_), IsEmpty());
}

TEST_F(SinfulTree, AnalysisThatIncludesTheSerialSideIsNamedWithItsLine)
{
    write("analysis/judge.cpp", "\n#include \"acquisition/serial/capture.hpp\"\n");
    EXPECT_THAT(directions(),
                ElementsAre("analysis/judge.cpp:2: analysis may not include acquisition/serial/capture.hpp"));
}

TEST_F(SinfulTree, AngleBracketsHideNothing)
{
    write("acquisition/trace/trace.cpp", "#include <analysis/judge.cpp>\n");
    EXPECT_THAT(directions(), SizeIs(1));
}

TEST_F(SinfulTree, AnIncludeThatDoesNotStartAtTheRootIsRefused)
{
    write("analysis/a.cpp", "#include \"judge.cpp\"\n");
    EXPECT_THAT(directions(), ElementsAre(HasSubstr("does not start at the root")));
}

TEST_F(SinfulTree, AFileOutsideEveryPartIsRefused)
{
    write("acquisition/loose.cpp", "#include \"acquisition/trace/trace.hpp\"\n");
    EXPECT_THAT(directions(), ElementsAre(HasSubstr("belongs to no part")));
}

TEST_F(SinfulTree, AFolderWhoseNameOnlyBeginsLikeAnAllowedOneIsNotAllowed)
{
    write("acquisition/trace_extras/more.hpp", "");
    write("analysis/a.cpp", "#include \"acquisition/trace_extras/more.hpp\"\n");
    EXPECT_THAT(directions(), SizeIs(1));
}

TEST_F(SinfulTree, AsioOutsideItsPlaceOrInASecondHeaderIsNamed)
{
    write("analysis/a.cpp", "#include <boost/asio.hpp>\n");
    EXPECT_THAT(stray_libraries(rules_, includes_below(root_)),
                ElementsAre(HasSubstr("belongs into acquisition/serial")));
    write("analysis/a.cpp", "");
    write("acquisition/serial/one.hpp", "#include <boost/asio.hpp>\n");
    EXPECT_THAT(stray_libraries(rules_, includes_below(root_)), IsEmpty());
    write("acquisition/serial/two.hpp", "#include <boost/asio/post.hpp>\n");
    EXPECT_THAT(stray_libraries(rules_, includes_below(root_)), ElementsAre(HasSubstr("1 headers")));
}

TEST_F(SinfulTree, AHeaderWithAsioNeedsUtilityFirst)
{
    write("acquisition/serial/one.hpp", "#include <boost/asio.hpp>\n#include <utility>\n");
    EXPECT_THAT(asio_without_utility(includes_below(root_)), SizeIs(1));
    write("acquisition/serial/one.hpp", "#include <utility>\n#include <boost/asio.hpp>\n");
    EXPECT_THAT(asio_without_utility(includes_below(root_)), IsEmpty());
}

TEST_F(SinfulTree, ForbiddenLinksAreNamed)
{
    EXPECT_THAT(wrong_links(rules_, {{"zeroline_analysis", {"zeroline_flags", "zeroline_trace"}}}), IsEmpty());
    EXPECT_THAT(wrong_links(rules_, {{"zeroline_analysis", {"zeroline_serial"}}}),
                ElementsAre("zeroline_analysis may not link zeroline_serial"));
    EXPECT_THAT(wrong_links(rules_, {{"zeroline_trace", {"outside::json", "Qt6::Core"}}}),
                ElementsAre("zeroline_trace may not link Qt6::Core"));
    EXPECT_THAT(wrong_links(rules_, {{"zeroline_extras", {}}}), SizeIs(1));
}

TEST_F(SinfulTree, AnUnknownFolderAtTheTopAndAMissingOneAreNamed)
{
    write("extras/a.txt", "");
    fs::remove_all(root_ / "analysis");
    EXPECT_THAT(wrong_names_at_the_top(rules_, root_),
                ElementsAre("missing at the top: analysis", "not agreed at the top: extras"));
}

} // namespace
} // namespace zeroline::house
