// What a maker would call wrong if the model said otherwise: common practice of the trade, no
// source.
#include <catch2/catch.hpp>

#include "oils/records/library.hpp"
#include "targets/model/difference.hpp"
#include "targets/model/model.hpp"
#include "targets/model/words.hpp"

using namespace barwright;
using namespace barwright::targets;

namespace {

Composition blend(std::initializer_list<std::pair<const char*, double>> oils) {
  static const oils::Library library = oils::Library::embedded();
  std::vector<Composition> parts;
  std::vector<double> shares;
  for (const auto& [name, share] : oils) {
    const auto* oil = library.find(name);
    REQUIRE(oil != nullptr);
    parts.push_back(composition(*oil));
    shares.push_back(share);
  }
  return mix(parts, shares);
}

double score(Property property, const Composition& bar, double superfat = 0.05) {
  static const PropertyModel model = PropertyModel::embedded();
  BarSettings settings;
  settings.superfat = superfat;
  return model.value(property, bar, settings);
}

Difference compared(Property property, const Composition& bar, const Composition& with) {
  static const PropertyModel model = PropertyModel::embedded();
  return difference(model, model.readings(), property, bar, {}, with, {});
}

}  // namespace

TEST_CASE("keeping falls and the bar softens a little as superfat rises", "[model][maker]") {
  for (const char* oil : {"olive", "lard", "sunflower"}) {
    INFO(oil);
    const auto bar = blend({{oil, 1}});
    const double keeps = score(Property::keeping, bar) - score(Property::keeping, bar, 0.2);
    CHECK(keeps > 2);
    CHECK(keeps < 15);
    const double softer = score(Property::hardness, bar) - score(Property::hardness, bar, 0.2);
    CHECK(softer > 0.5);
    CHECK(softer < 6);
  }
  // The scale stands at the usual superfat.
  CHECK(score(Property::keeping, blend({{"olive", 1}})) == Approx(52).margin(2));
}

TEST_CASE("a little beeswax: no softer, thickens sooner", "[model][maker]") {
  const auto olive = blend({{"olive", 1}});
  const auto waxed = blend({{"olive", 0.97}, {"beeswax", 0.03}});
  CHECK(score(Property::hardness, waxed) > score(Property::hardness, olive) - 1);
  CHECK(score(Property::cut_firmness, waxed) >= score(Property::cut_firmness, olive));
  CHECK(score(Property::working_time, waxed) < score(Property::working_time, olive) - 2);
  CHECK_FALSE(compared(Property::hardness, waxed, olive).sure);
}

TEST_CASE("oils high in what lye leaves alone thicken sooner", "[model][maker]") {
  const double refined = score(Property::working_time, blend({{"olive", 1}}));
  const double pomace = score(Property::working_time, blend({{"olive pomace", 1}}));
  CHECK(pomace < refined - noticeable(Property::working_time));
  // A judgement with a wide spread: never sure of it.
  CHECK_FALSE(compared(Property::working_time, blend({{"olive", 0.7}, {"coconut", 0.3}}),
                       blend({{"olive pomace", 0.7}, {"coconut", 0.3}}))
                  .sure);
}

TEST_CASE("thin oils are not quicker to foam than a bar with 30 % coconut", "[model][maker]") {
  const double usual =
      score(Property::quickness, blend({{"olive", 0.4}, {"palm", 0.3}, {"coconut", 0.3}}));
  for (const char* oil : {"linseed", "hemp seed", "grapeseed", "sunflower"}) {
    INFO(oil);
    CHECK(score(Property::quickness, blend({{oil, 1}})) <= usual);
  }
}

TEST_CASE("castile foams slowly, tallow holds its foam better than coconut", "[model][maker]") {
  const auto castile = blend({{"olive", 1}});
  const auto usual = blend({{"olive", 0.4}, {"palm", 0.3}, {"coconut", 0.25}, {"castor", 0.05}});
  CHECK(score(Property::quickness, castile) < score(Property::quickness, usual) - 4);
  CHECK(score(Property::mildness, castile) > score(Property::mildness, usual) + 6);
  CHECK(score(Property::staying, blend({{"beef tallow", 1}})) >
        score(Property::staying, blend({{"coconut", 1}})));
}
