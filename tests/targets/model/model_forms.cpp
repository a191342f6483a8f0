#include <catch2/catch.hpp>
#include <stdexcept>

#include "tests/targets/model/model_testing.hpp"

using namespace barwright;
using namespace barwright::targets;
using namespace barwright::targets::testing;
using P = Property;

namespace {

Composition nudged(Composition c, std::size_t component, double by) {
  if (component < core::kFattyAcidCount) c.acids[component] += by;
  if (component == kUnsaponifiable) c.unsaponifiable += by;
  if (component == kWax) c.wax += by;
  if (component == kFreeAcid) c.free_acid += by;
  if (component == kHardWax) c.hard_wax += by;
  if (component == kLard) c.lard += by;
  return c;
}

double slope(const PropertyForm& form, const Composition& c, std::size_t component) {
  const auto parts = components(c);
  double out = form.linear[component];
  for (const Bend& bend : form.bends) {
    double along = 0;
    for (std::size_t k = 0; k < parts.size(); ++k) along += bend.slope[k] * parts[k];
    if (along < bend.cap) out += bend.weight * bend.slope[component];
  }
  return out;
}

}  // namespace

TEST_CASE("a form gives the property's value, and its inverse undoes the scale", "[model]") {
  Dice dice(1);
  const auto model = PropertyModel::embedded();
  for (int i = 0; i < 300; ++i) {
    const Composition c = dice.composition();
    const BarSettings s = dice.settings();
    for (P p : all_properties()) {
      if (!PropertyModel::has_form(p)) continue;
      const PropertyForm form = model.form(p, s);
      const double value = model.value(p, c, s);
      INFO(name(p));
      CHECK(form.outer(form.inner(c)) == Approx(value).margin(1e-12));
      if (value > 1) CHECK(form.inverse(value) == Approx(form.inner(c)).margin(1e-9));
      CHECK((form.outer(1) < form.outer(2)) == form.rising());
    }
  }
}

TEST_CASE("soluble shares and the titre have no form", "[model]") {
  for (P p : {P::soluble_20, P::soluble_38, P::titre}) {
    CHECK_FALSE(PropertyModel::has_form(p));
    CHECK_THROWS_AS(PropertyModel::embedded().form(p, {}), std::logic_error);
  }
}

TEST_CASE("scores stay within 0 and 100 for any blend, setting and drawn constants", "[model]") {
  Dice dice(2);
  auto models = PropertyModel::embedded().draws(60, 3);
  models.push_back(PropertyModel::embedded());
  for (const PropertyModel& model : models)
    for (int i = 0; i < 60; ++i) {
      const Composition c = dice.composition();
      const BarSettings s = dice.settings();
      for (P p : all_properties()) {
        if (p == P::titre) continue;
        const double value = model.value(p, c, s);
        INFO(name(p) << " " << value);
        CHECK(value >= -1e-9);
        CHECK(value <= 100 + 1e-9);
      }
    }
}

TEST_CASE("pure chains stay within 0 and 100 too", "[model]") {
  for (const core::AcidFacts& facts : core::acid_facts())
    for (double free_fat : {0.0, 0.2})
      for (P p : all_properties()) {
        if (p == P::titre) continue;
        const double value =
            score(p, of_acids({{std::string(facts.key), 100}}), superfat(free_fat));
        INFO(facts.key << " " << name(p) << " " << value);
        CHECK(value >= 0);
        CHECK(value <= 100);
      }
}

TEST_CASE("a form's gradient equals the central difference", "[model]") {
  Dice dice(4);
  const auto model = PropertyModel::embedded();
  const double step = 1e-6;
  for (int i = 0; i < 20; ++i) {
    const Composition c = dice.composition();
    const BarSettings s = dice.settings();
    for (P p : all_properties()) {
      if (!PropertyModel::has_form(p)) continue;
      const PropertyForm form = model.form(p, s);
      for (std::size_t k = 0; k < kComponentCount; ++k) {
        const double here = slope(form, c, k);
        // At the very bend the central difference straddles two slopes.
        if (slope(form, nudged(c, k, step), k) != slope(form, nudged(c, k, -step), k)) continue;
        const double central =
            (form.inner(nudged(c, k, step)) - form.inner(nudged(c, k, -step))) / (2 * step);
        INFO(name(p) << " component " << k);
        CHECK(central == Approx(here).margin(1e-5));
      }
    }
  }
}

TEST_CASE("properties without bends are linear in the shares, the others concave", "[model]") {
  Dice dice(5);
  const auto model = PropertyModel::embedded();
  for (int i = 0; i < 100; ++i) {
    const std::vector<Composition> parts = {dice.composition(), dice.composition()};
    const BarSettings s = dice.settings();
    const double share = dice.unit();
    const std::vector<double> shares = {share, 1 - share};
    for (P p : all_properties()) {
      if (!PropertyModel::has_form(p)) continue;
      const PropertyForm form = model.form(p, s);
      const double mixed = form.inner(mix(parts, shares));
      const double meaned = share * form.inner(parts[0]) + (1 - share) * form.inner(parts[1]);
      INFO(name(p));
      for (const Bend& bend : form.bends) CHECK(bend.weight > 0);
      if (form.bends.empty())
        CHECK(mixed == Approx(meaned).margin(1e-9));
      else
        CHECK(mixed >= meaned - 1e-9);
    }
  }
}

TEST_CASE("a blend of one oil is that oil, and order does not matter", "[model]") {
  const auto model = PropertyModel::embedded();
  for (const auto& [oil, acids] : profiles()) {
    const std::vector<Composition> one = {fat(oil)};
    const std::vector<Composition> halves = {fat(oil), fat(oil)};
    const std::vector<double> all = {1}, half = {0.5, 0.5};
    for (P p : all_properties()) {
      CHECK(model.value(p, mix(one, all), {}) == model.value(p, fat(oil), {}));
      CHECK(model.value(p, mix(halves, half), {}) ==
            Approx(model.value(p, fat(oil), {})).margin(1e-9));
    }
  }
  const Composition ab = blend({{"olive", 30}, {"coconut", 70}});
  const Composition ba = blend({{"coconut", 70}, {"olive", 30}});
  for (P p : all_properties())
    CHECK(model.value(p, ab, {}) == Approx(model.value(p, ba, {})).margin(1e-9));
}

TEST_CASE("settings that no bar can have are refused", "[model]") {
  const auto refused = [](auto change) {
    BarSettings settings;
    change(settings);
    CHECK_THROWS_AS(score(P::hardness, plain_bar(), settings), std::invalid_argument);
    CHECK_THROWS_AS(score(P::soluble_20, plain_bar(), settings), std::invalid_argument);
  };
  refused([](BarSettings& s) { s.lye_concentration = 0; });
  refused([](BarSettings& s) { s.lye_concentration = 1; });
  refused([](BarSettings& s) { s.koh_share = 1.1; });
  refused([](BarSettings& s) { s.superfat = 5; });
  refused([](BarSettings& s) { s.cure_days = -1; });
  refused([](BarSettings& s) { s.cut_hours = std::nan(""); });
}

TEST_CASE("names of properties go both ways", "[model]") {
  for (P p : all_properties()) CHECK(find_property(name(p)) == p);
  CHECK(find_property("cut-firmness") == P::cut_firmness);
  CHECK_FALSE(find_property("bubbly"));
}

TEST_CASE("the inverse of a value no blend reaches is finite and beyond every blend", "[model]") {
  const PropertyForm form = PropertyModel::embedded().form(P::keeping, {});
  for (double value : {-5.0, 0.0, 0.001}) {
    CHECK(std::isfinite(form.inverse(value)));
    CHECK(form.inverse(value) > form.inner(of_acids({{"C18:4", 100}})) * 10);
  }
  CHECK(form.inverse(101) < 0);
}
