// Wishes as makers say them, and the manners of a brief.
#include <catch2/catch.hpp>

#include "targets/brief/brief.hpp"

using namespace barwright;
using namespace barwright::targets;
using Catch::Matchers::Contains;

namespace {

Brief asked(const std::string& want, const std::string& more = {}) {
  static const oils::Library library = oils::Library::embedded();
  return read_brief_text(
      "brief: t\noils-from: library\ncompared-with: plain bar\nwant: \"" + want + "\"\n" + more,
      "b.yaml", "", library);
}

std::string words(const std::string& want) {
  std::string out;
  const Brief brief = asked(want);
  for (const auto& wish : brief.wishes) out += wish.written.text + "; ";
  for (const auto& goal : brief.goals) out += "best " + goal.written.text + "; ";
  for (const auto& barred : brief.rules.barred) out += "not " + barred.tag + barred.oil + "; ";
  return out;
}

std::string refused(const std::string& want, const std::string& more = {}) {
  try {
    asked(want, more);
  } catch (const core::InputError& error) {
    return error.what();
  }
  return "read";
}

}  // namespace

TEST_CASE("comparative words are read and printed back", "[brief][spoken]") {
  const std::vector<std::pair<std::string, std::string>> table = {
      {"harder", "harder (hardness: clearly more); "},
      {"Firmer than now", "Firmer than now (hardness: clearly more); "},
      {"much milder", "much milder (mildness: much more); "},
      {"a little softer", "a little softer (hardness: a little less); "},
      {"no softer", "no softer (hardness: no less); "},
      {"not clearly harsher", "not clearly harsher (mildness: not clearly less); "},
      {"as hard as now", "as hard as now (hardness: no less); "},
      {"longer lasting", "longer lasting (thrift: clearly more); "},
      {"longer-lasting foam", "longer-lasting foam (staying: clearly more); "},
      {"keeps longer", "keeps longer (keeping: clearly more); "},
      {"slower to trace", "slower to trace (working-time: clearly more); "},
      {"more lather", "more lather (lather: clearly more); "},
      {"no less lather", "no less lather (lather: no less); "},
      {"lather no less", "lather no less (lather: no less); "},
      {"lather: no less", "lather: no less; "},
      {"hardness at least 5 above", "hardness at least 5 above (hardness: at least 5 above); "},
      {"hardness at least 5 above, likely 90 %",
       "hardness at least 5 above, likely 90 % (hardness: at least 5 above); "},
      {"iodine value at most 60", "iodine value at most 60 (iodine value: at most 60); "},
      {"harder, lather no less",
       "harder (hardness: clearly more); lather no less (lather: no less); "},
      {"harder; milder", "harder (hardness: clearly more); milder (mildness: clearly more); "},
      {"hardest", "best hardest (most hardness); "},
      {"most lather", "best most lather; "},
      {"cheapest", "best cheapest; "},
      {"cheaper", "cheaper (oil cost: no more); best cheaper (cheapest); "},
      {"harder, without palm", "harder (hardness: clearly more); not palmpalm; "},
      {"harder, vegan", "harder (hardness: clearly more); not animal; "},
      {"milder, palm-free", "milder (mildness: clearly more); not palmpalm; "}};
  for (const auto& [said, read] : table) CHECK(words(said) == read);
  CHECK(asked("hardness at least 5 above, likely 90 %").wishes[0].level->share == Approx(0.9));
}

TEST_CASE("words around a wish say nothing, and makers have many for one thing",
          "[brief][spoken]") {
  const std::vector<std::pair<std::string, std::string>> table = {
      {"a harder bar", "a harder bar (hardness: clearly more); "},
      {"like mine but much harder", "like mine but much harder (hardness: much more); "},
      {"a bar that lasts longer", "a bar that lasts longer (thrift: clearly more); "},
      {"harder than mine", "harder than mine (hardness: clearly more); "},
      {"creamier lather", "creamier lather (staying: clearly more); "},
      {"more moisturising", "more moisturising (conditioning: clearly more); "},
      {"slower trace", "slower trace (working-time: clearly more); "},
      {"unmoulds sooner", "unmoulds sooner (cut-firmness: clearly more); "},
      {"longer shelf life", "longer shelf life (keeping: clearly more); "},
      {"fewest oils", "best fewest oils; "},
      {"use up olive", "best use up olive; "},
      {"nearest in feel", "best nearest in feel; "}};
  for (const auto& [said, read] : table) CHECK(words(said) == read);
}

TEST_CASE("oils are spoken of against the bar in the hand", "[brief][spoken]") {
  static const oils::Library library = oils::Library::embedded();
  const auto of = [](const std::string& want, const std::string& more = {}) {
    return read_brief_text(
        "brief: t\noils-from: library\ncompared-with: {name: mine, blend: {olive: 40 %, coconut: "
        "30 %, palm: 25 %, castor: 5 %}}\nwant: \"" +
            want + "\"\n" + more,
        "b.yaml", "", library);
  };
  const auto limit = [&](const std::string& want) { return of(want).rules.oils.at(0); };
  CHECK(limit("harder, less coconut").written.text == "less coconut (coconut at most 25 %)");
  CHECK(limit("less coconut").most == Approx(0.25));
  CHECK(limit("much less coconut").most == Approx(0.20));
  CHECK(limit("slightly less coconut").most == Approx(0.29));
  CHECK(limit("less castor").most == Approx(0.025));
  CHECK(limit("no more coconut").most == Approx(0.30));
  CHECK(limit("more olive").least == Approx(0.45));
  CHECK(limit("more olive").always);
  CHECK(limit("no less olive").least == Approx(0.40));
  CHECK(limit("more lard").least == Approx(0.05));
  CHECK(of("no coconut").rules.barred.at(0).oil == "coconut");
  CHECK(of("no palm").rules.barred.at(0).tag == "palm");
  // Nothing but oils: the bar stays as near as it can.
  CHECK(of("no coconut").goals.at(0).written.text == "nearest in feel");
  CHECK(of("no coconut", "best: most lather\n").goals.size() == 1);
  CHECK_THROWS_WITH(of("less coconut", "limits: {coconut: at most 10 %}\n"),
                    Contains("coconut is limited twice"));
  // The shipped bar's blend stands in no file of the maker's.
  CHECK_THAT(refused("less coconut"), Contains("needs the blend of your bar"));
  CHECK_THAT(refused("less glass"), Contains("cannot read the wish"));
}

TEST_CASE("what cannot be read is refused with examples", "[brief][spoken]") {
  for (const std::string bad : {"hardre", "nice", "harder,, milder", "without glass", ";"})
    CHECK_THAT(refused(bad), Contains("b.yaml:4:7") && Contains("lather no less"));
  CHECK_THAT(refused("hardness"), Contains("Write 'more hardness'"));
  CHECK_THAT(refused("hard"), Contains("Did you mean 'harder'?"));
  CHECK_THAT(refused("hardre"), Contains("Did you mean 'harder'?"));
}

TEST_CASE("which manners a brief lets go", "[brief][manners]") {
  const auto off = [](const std::string& text) {
    const auto wish = asked("harder", "manners: " + text + "\n").rules.manners;
    std::string out = wish.none ? "none" : "";
    for (const auto& name : wish.off) out += name + ";";
    return out;
  };
  CHECK(off("none") == "none");
  CHECK(off("without few oils") == "few oils;");
  CHECK(off("without few oils, Round-shares") == "few oils;round shares;");
  CHECK(off("{few oils: no, vegan: yes}") == "few oils;");
  CHECK(off("all") == "");
  CHECK_THAT(refused("harder", "manners: without few oil\n"), Contains("Did you mean 'few oils'?"));
  CHECK_THAT(refused("harder", "manners: [few oils]\n"), Contains("a word or a block"));
  CHECK_THAT(refused("harder", "manners: none of them\n"), Contains("without few oils"));
}
