#include "targets/model/feel.hpp"

#include <catch2/catch.hpp>

#include "core/units/error.hpp"
#include "oils/records/library.hpp"

using namespace barwright;
using namespace barwright::targets;

namespace {

const oils::Library& library() {
  static const oils::Library one = oils::Library::embedded();
  return one;
}

Composition blend(const std::vector<std::pair<std::string, double>>& parts) {
  std::vector<Composition> fats;
  std::vector<double> shares;
  for (const auto& [name, share] : parts) {
    const auto* oil = library().find(name);
    REQUIRE(oil != nullptr);
    fats.push_back(composition(*oil));
    shares.push_back(share / 100);
  }
  return mix(fats, shares);
}

// A butter bar with `oil` in the place of 20 % of it.
Composition with(const std::string& oil) {
  return blend({{"olive", 45}, {"coconut", 25}, {oil, 20}, {"rice bran", 5}, {"castor", 5}});
}

FeelGap gap(const Composition& bar, const Composition& yardstick) {
  return feel_gap(PropertyModel::embedded(), bar, {}, yardstick, {});
}

}  // namespace

TEST_CASE("20 % of a butter for palm or tallow is felt in the dry bar", "[feel]") {
  // Common practice, no source: makers tell a butter bar from a palm or tallow bar in the hand.
  for (const std::string butter : {"mango butter", "kokum butter", "sal butter", "illipe"}) {
    for (const std::string other : {"palm", "beef tallow"}) {
      CAPTURE(butter, other);
      CHECK(gap(with(other), with(butter)).part(FeelPart::dry_bar) > 1);
    }
  }
}

TEST_CASE("what makers cannot tell apart is not felt", "[feel]") {
  // Common practice, no source: kindred butters in small shares, olive and its look-alike.
  const auto mango = blend({{"olive", 55}, {"coconut", 25}, {"mango butter", 15}, {"castor", 5}});
  const auto half = blend(
      {{"olive", 55}, {"coconut", 25}, {"mango butter", 10}, {"sal butter", 5}, {"castor", 5}});
  CHECK(gap(half, mango).total < 1);
  const auto sunflower = blend({{"olive", 40},
                                {"coconut", 25},
                                {"high-oleic sunflower", 15},
                                {"mango butter", 15},
                                {"castor", 5}});
  CHECK(gap(sunflower, mango).total < 1);
}

TEST_CASE("a gap is nothing to itself, the same both ways, and adds up", "[feel]") {
  const auto a = with("mango butter"), b = with("palm");
  CHECK(gap(a, a).total == 0);
  CHECK(gap(a, b).total == Approx(gap(b, a).total));
  const auto ab = gap(a, b);
  double squares = 0, terms = 0;
  for (const double part : ab.parts) squares += part * part;
  for (std::size_t t = 0; t < ab.terms.size(); ++t)
    terms += feel_terms()[t].weight * ab.terms[t] * ab.terms[t];
  CHECK(ab.total * ab.total == Approx(squares));
  CHECK(ab.total * ab.total == Approx(terms));
}

TEST_CASE("each part can be felt alone", "[feel]") {
  const auto base = with("mango butter");
  const auto coconut = blend(
      {{"olive", 25}, {"coconut", 45}, {"mango butter", 20}, {"rice bran", 5}, {"castor", 5}});
  CHECK(gap(coconut, base).part(FeelPart::lather) > 1);
  BarSettings rich;
  rich.superfat = 0.10;
  const auto fat = feel_gap(PropertyModel::embedded(), base, rich, base, {});
  CHECK(fat.part(FeelPart::skin_after) > 1);
}

TEST_CASE("the gap is convex along a line between blends", "[feel]") {
  const auto a = with("palm"), b = with("coconut"), y = with("mango butter");
  const std::vector<Composition> ends = {a, b};
  for (const double t : {0.25, 0.5, 0.75}) {
    const std::vector<double> shares = {1 - t, t};
    CHECK(gap(mix(ends, shares), y).total <=
          (1 - t) * gap(a, y).total + t * gap(b, y).total + 1e-12);
  }
}

TEST_CASE("what matters most counts most", "[feel]") {
  const std::vector<std::string> most = {"dry touch", "lather"};
  const auto times = emphasis(most);
  for (std::size_t t = 0; t < times.size(); ++t) {
    const auto& name = feel_terms()[t].name;
    CAPTURE(name);
    if (name == "dry touch") CHECK(times[t] == 4);
    if (name == "foam") CHECK(times[t] == 3);
    if (name == "after-feel") CHECK(times[t] == 1);
  }
}

TEST_CASE("feel data that are not marked as judgement are refused", "[feel]") {
  const std::string text =
      "parts: []\nterms:\n  - {name: a, part: lather, property: lather, weight: 1, aspects: "
      "[lather], mark: read, why: x}\nmatters-most: {times: [2], mark: judgement, why: x}\n";
  CHECK_THROWS_AS(read_feel(text, "t.yaml"), core::InputError);
}
