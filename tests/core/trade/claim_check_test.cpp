#include "core/trade/claim_check.hpp"

#include <catch2/catch.hpp>

#include "core/trade/ingredient.hpp"
#include "core/trade/traits.hpp"

using namespace barwright::core;
using Verdict = JudgedClaim::Verdict;

namespace {

const std::vector<InBar> kPlainBar = {{"olive", {"vegan"}, true}, {"coconut", {"vegan"}, true}};

InBar with(const std::string& what, std::set<std::string> traits, bool known = true) {
  return {what, std::move(traits), known};
}

std::vector<InBar> plus(InBar more) {
  auto out = kPlainBar;
  out.push_back(std::move(more));
  return out;
}

/// The one verdict on these words; "none" when they claim nothing.
std::string verdict(const std::string& words, const std::vector<InBar>& bar) {
  const auto claims = judge_claims(words, bar);
  if (claims.empty()) return "none";
  REQUIRE(claims.size() == 1);
  return claims[0].verdict == Verdict::lie        ? "lie"
         : claims[0].verdict == Verdict::doubtful ? "doubtful"
                                                  : "true so far";
}

}  // namespace

TEST_CASE("a claim that the bar contradicts is a lie, however it is worded", "[claims]") {
  const auto tallow = plus(with("beef tallow", {"animal", "animal fat", "beef"}));
  for (const char* words : {"vegan", "Vegan!", "a plant-based bar", "no animal fats",
                            "free from animal fat", "tallow-free", "without lard"}) {
    INFO(words);
    CHECK(verdict(words, tallow) == "lie");
    CHECK(verdict(words, kPlainBar) == "true so far");
  }
  const auto palm = plus(with("palm kernel", {"palm", "vegan"}));
  for (const char* words : {"palm free", "PALM-FREE", "palm oil free", "no palm oil",
                            "free of palm", "without any palm"}) {
    INFO(words);
    CHECK(verdict(words, palm) == "lie");
    CHECK(verdict(words, kPlainBar) == "true so far");
  }
  CHECK(verdict("nut free", plus(with("sweet almond", {"tree nut", "vegan"}))) == "lie");
  CHECK(verdict("no nuts", plus(with("peanut", {"peanut", "vegan"}))) == "lie");
  CHECK(verdict("unscented", plus(with("fir and smoke", {"scent"}))) == "lie");
  CHECK(verdict("fragrance free", plus(with("lavender", {"scent"}))) == "lie");
  CHECK(verdict("all natural", plus(with("titanium dioxide", {"made"}))) == "lie");
}

TEST_CASE("two things denied in one breath are two claims", "[claims]") {
  const auto palm = plus(with("palm", {"palm", "vegan"}));
  for (const char* words : {"free from palm and nuts", "no nuts or palm", "palm and nut free"}) {
    INFO(words);
    const auto claims = judge_claims(words, palm);
    REQUIRE(claims.size() == 2);
    int lies = 0;
    for (const auto& claim : claims) lies += claim.verdict == Verdict::lie ? 1 : 0;
    CHECK(lies == 1);
  }
}

TEST_CASE("what is not claimed is not judged, what is not known is doubted", "[claims]") {
  const auto tallow = plus(with("beef tallow", {"animal"}));
  for (const char* words : {"not vegan", "non-vegan", "made by hand", "with palm oil",
                            "no plastic; palm from a good estate", "scent of smoke", "free gift"}) {
    INFO(words);
    CHECK(verdict(words, tallow) == "none");
  }
  CHECK(verdict("vegan", plus(with("stearic acid", {"may be animal"}))) == "doubtful");
  CHECK(verdict("vegan", plus(with("barn dust", {}, false))) == "doubtful");
  CHECK(verdict("palm free", plus(with("stearic acid", {"may be palm"}))) == "doubtful");
  CHECK(verdict("natural", plus(with("fir and smoke", {"scent"}))) == "doubtful");
}

TEST_CASE("where additions come from is known by their names", "[claims]") {
  CHECK(traits_of("goat milk").contains("animal"));
  CHECK(traits_of("Honey").contains("animal"));
  CHECK(traits_of("silk").contains("animal"));
  CHECK_FALSE(traits_of("oat milk").contains("animal"));
  CHECK_FALSE(traits_of("honey mica").contains("animal"));
  CHECK(traits_of("almond milk").contains("tree nut"));
  CHECK(traits_of("titanium dioxide").contains("made"));
  CHECK(traits_of("kaolin").empty());
}

TEST_CASE("clays and salts have their names", "[claims]") {
  // From memory of CosIng: the list says so beside each.
  const auto eu = [](const char* name) {
    const auto found = find_ingredient_name(name);
    return found ? found->eu : std::string("none");
  };
  CHECK(eu("rhassoul clay") == "Moroccan Lava Clay");
  CHECK(eu("French green clay") == "Illite");
  CHECK(eu("pink clay") == "Kaolin");
  CHECK(eu("fuller's earth") == "Solum Fullonum");
  CHECK(eu("montmorillonite") == "Montmorillonite");
  CHECK(eu("fine sea salt") == "Maris Sal");
  CHECK(eu("Dead Sea salt") == "Maris Sal");
  CHECK(eu("table salt") == "Sodium Chloride");
  CHECK(eu("himalayan salt") == "Sodium Chloride");
  CHECK(eu("epsom salt") == "Magnesium Sulfate");
  CHECK(eu("mystery clay") == "none");
}
