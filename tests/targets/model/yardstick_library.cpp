// The model over the shipped library: what holds for hand-written profiles holds for its records.
#include <catch2/catch.hpp>
#include <numeric>

#include "targets/model/caution.hpp"
#include "targets/model/difference.hpp"
#include "targets/model/words.hpp"
#include "targets/model/yardstick.hpp"
#include "tests/targets/model/model_orderings.hpp"

using namespace barwright;
using namespace barwright::targets;
using P = Property;

namespace {

const oils::Library& library() {
  static const oils::Library all = oils::Library::embedded();
  return all;
}

Composition oil(const std::string& name) {
  const oils::Oil* found = library().find(name);
  INFO(name);
  REQUIRE(found != nullptr);
  return composition(*found);
}

// A bar of model_orderings.hpp, of the library's oils.
Composition library_bar(const std::string& name) {
  const auto two = [](const std::string& a, double part, const std::string& b) {
    const std::vector<Composition> parts = {oil(a), oil(b)};
    const std::vector<double> shares = {part, 1 - part};
    return mix(parts, shares);
  };
  if (name == "P50K50") return two("palm", 0.5, "palm kernel");
  if (name == "P80K20") return two("palm", 0.8, "palm kernel");
  if (name == "T75C25") return two("beef tallow", 0.75, "coconut");
  if (name == "T95C5") return two("beef tallow", 0.95, "coconut");
  return oil(name);
}

}  // namespace

TEST_CASE("every oil of the library has a whole composition and scores within 0 and 100",
          "[yardstick]") {
  const auto model = PropertyModel::embedded();
  for (const oils::Oil& record : library().oils()) {
    const Composition c = composition(record);
    INFO(record.name);
    CHECK(std::accumulate(c.acids.begin(), c.acids.end(), c.wax) == Approx(1).margin(1e-9));
    for (P p : all_properties()) {
      if (p == P::titre) continue;
      const double value = model.value(p, c, {});
      INFO(name(p) << " " << value);
      CHECK(value >= 0);
      CHECK(value <= 100);
    }
    if (record.form == oils::Form::wax) CHECK(c.wax == 1);
    // Free acids seize: the record must say how much is usual at most.
    if (record.form == oils::Form::free_acid) CHECK(record.usual_most.has_value());
  }
}

TEST_CASE("every shipped yardstick can be worked from the library", "[yardstick]") {
  for (const ShippedYardstick& yardstick : shipped_yardsticks()) {
    const Composition c = composition(yardstick, library());
    CHECK(std::accumulate(c.acids.begin(), c.acids.end(), 0.0) == Approx(1).margin(1e-9));
  }
  const ShippedYardstick& olive = *find_yardstick("all-olive");
  for (P p : all_properties())
    CHECK(PropertyModel::embedded().value(p, composition(olive, library()), olive.settings) ==
          PropertyModel::embedded().value(p, oil("olive"), {}));
  ShippedYardstick wrong = olive;
  wrong.blend[0].first = "olve";
  CHECK_THROWS_AS(composition(wrong, library()), core::InputError);
}

TEST_CASE("the orderings of print and practice hold for the library's oils", "[yardstick]") {
  const auto model = PropertyModel::embedded();
  for (const testing::Ordering& o : testing::orderings()) {
    INFO(name(o.property) << ": " << o.better << " above " << o.worse << " (" << o.source << ")");
    CHECK(model.value(o.property, library_bar(o.better), {}) >
          model.value(o.property, library_bar(o.worse), {}));
  }
}

TEST_CASE("bench facts hold for the library's oils", "[yardstick]") {
  const auto score = [](P p, const std::string& name) {
    return PropertyModel::embedded().value(p, oil(name), {});
  };
  CHECK(score(P::quickness, "coconut") - score(P::quickness, "olive") >= 25);
  CHECK(score(P::thrift, "olive") >= score(P::thrift, "coconut"));
  CHECK(score(P::lather, "castor") <= score(P::lather, "olive"));
  CHECK(score(P::conditioning, "shea butter") >=
        score(P::conditioning, "palm") + noticeable(P::conditioning));
  CHECK(score(P::conditioning, "mango butter") > score(P::conditioning, "beef tallow"));
  CHECK(score(P::working_time, "stearic acid") < score(P::working_time, "palm stearin") / 2);

  const auto draws = PropertyModel::embedded().draws(400, 2);
  const std::vector<std::pair<std::string, std::string>> ties = {{"palm kernel", "coconut"},
                                                                 {"high-oleic sunflower", "olive"}};
  for (const auto& [one, other] : ties)
    for (P p : all_properties()) {
      if (p == P::titre) continue;
      INFO(one << " against " << other << ", " << name(p));
      CHECK_FALSE(
          difference(PropertyModel::embedded(), draws, p, oil(one), {}, oil(other), {}).sure);
    }
}

TEST_CASE("cautions are given where they belong", "[yardstick]") {
  CHECK(cautions(oil("olive")).size() == 1);  // slow to foam, slimy in a wet dish
  CHECK(cautions(oil("lard")).empty());
  CHECK(cautions(oil("sunflower")).size() == 2);
  CHECK(cautions(oil("meadowfoam")).size() == 3);  // its second acid has two bonds
  CHECK(cautions(oil("beeswax")).size() == 2);     // its free acid too
}
