#include <catch2/catch.hpp>
#include <numeric>

#include "targets/model/mixing.hpp"
#include "tests/targets/model/model_testing.hpp"

using namespace barwright;
using namespace barwright::targets;
using namespace barwright::targets::testing;
using P = Property;

namespace {

// The small linear programme behind the share, S possible when sum min(x, S a) >= S.
double excess(const core::AcidProfile& x, const core::AcidProfile& a, double s) {
  double sum = 0;
  for (std::size_t k = 0; k < x.size(); ++k) sum += std::min(x[k], s * a[k]);
  return sum - s;
}

}  // namespace

TEST_CASE("the soluble share is the greatest that the linear programme allows", "[model]") {
  Dice dice(6);
  const auto model = PropertyModel::embedded();
  for (int i = 0; i < 200; ++i) {
    const Composition c = dice.composition();
    const BarSettings s = dice.settings();
    for (P p : {P::soluble_20, P::soluble_38}) {
      const auto limits = model.solubility_limits(p, s);
      const double share = model.value(p, c, s) / 100;
      CHECK(excess(c.acids, limits, share) >= -1e-9);
      for (int g = 1; g <= 400; ++g) {  // a scan of everything above
        const double above = share + (1 - share) * g / 400 + 1e-7;
        CHECK(excess(c.acids, limits, above) < 0);
      }
    }
  }
}

TEST_CASE("the soluble share equals the fixed point reached from above", "[model]") {
  Dice dice(7);
  const auto model = PropertyModel::embedded();
  for (int i = 0; i < 100; ++i) {
    const Composition c = dice.composition();
    const auto limits = model.solubility_limits(P::soluble_38, {});
    double share = std::accumulate(c.acids.begin(), c.acids.end(), 0.0);
    for (int step = 0; step < 200000; ++step) share += excess(c.acids, limits, share);
    CHECK(soluble_share(c.acids, limits) == Approx(share).margin(1e-6));
  }
}

TEST_CASE("the soluble share is concave in the composition", "[model]") {
  Dice dice(8);
  const auto model = PropertyModel::embedded();
  for (int i = 0; i < 300; ++i) {
    const std::vector<Composition> ends = {dice.composition(), dice.composition()};
    const double share = dice.unit();
    const std::vector<double> shares = {share, 1 - share};
    for (P p : {P::soluble_20, P::soluble_38})
      CHECK(model.value(p, mix(ends, shares), {}) >=
            share * model.value(p, ends[0], {}) + (1 - share) * model.value(p, ends[1], {}) - 1e-9);
  }
}

TEST_CASE("potash soaps dissolve more", "[model]") {
  // McBain and Sierichs 1948, J. Am. Oil Chem. Soc. 25, read: potassium soaps clear tens of degrees
  // below sodium ones.
  BarSettings potash;
  potash.koh_share = 1;
  for (const char* oil : {"beef tallow", "palm", "coconut"}) {
    CHECK(score(P::soluble_20, fat(oil), potash) > score(P::soluble_20, fat(oil)));
    CHECK(score(P::hardness, fat(oil), potash) < score(P::hardness, fat(oil)));
  }
}

TEST_CASE("palmitic and stearic soap together dissolve more than either alone", "[model]") {
  // A prediction of the model, which de Mul 2000, Langmuir 16:8276 (abstract read: a Krafft minimum
  // in mixtures of long sodium soaps) supports.
  const auto share = [](double palmitic) {
    return score(P::soluble_38,
                 of_acids({{"C16:0", palmitic}, {"C18:0", 50 - palmitic}, {"C18:1", 50}}));
  };
  CHECK(share(25) > share(50));
  CHECK(share(25) > share(0));
}
