// Sure measures held against lots drawn and against the worst lots themselves.
#include "solver/formulate/sure_measure.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "oils/records/certificate.hpp"
#include "solver/jobs/try_lots.hpp"
#include "targets/model/difference.hpp"
#include "targets/model/words.hpp"
#include "tests/solver/formulate/sure_testing.hpp"

using namespace barwright;
using namespace barwright::explain;
using namespace barwright::formulate;
using namespace barwright::jobs;
using namespace barwright::testing;
using targets::Property;
using targets::SureLevel;
using targets::Sureness;

namespace {

const std::vector<std::string> kOils = {
    "olive", "coconut", "palm", "castor", "shea butter", "lard", "soybean", "high-oleic sunflower"};
const std::vector<Property> kProperties = {
    Property::hardness, Property::lather,  Property::conditioning, Property::staying,
    Property::thrift,   Property::keeping, Property::working_time, Property::mildness};

struct Setting {
  std::vector<Candidate> candidates = candidates_of(kOils);
  LotBook book = lot_book(candidates, true);
  targets::PropertyModel model = targets::PropertyModel::embedded();
  targets::BarSettings settings{};

  SureGround at(const SureLevel& level) const { return {candidates, book, model, settings, level}; }
  double value(Property property, const std::vector<targets::Composition>& lots,
               const std::vector<double>& x) const {
    return model.value(property, targets::mix(lots, x), settings);
  }
};

const Setting& setting() {
  static const Setting one;
  return one;
}

const SureLevel kWorst{Sureness::worst_case}, kLikely{Sureness::likely};

}  // namespace

TEST_CASE("worst-case: no lot falls below the floor or rises above the ceiling", "[sure]") {
  const Setting& s = setting();
  Uniform draw(5);
  std::mt19937_64 bits(9);
  for (const Property property : kProperties) {
    const auto subject = property_subject(property);
    const Measure floor = sure_measure(subject, {}, End::floor, s.at(kWorst));
    const Measure ceiling = sure_measure(subject, {}, End::ceiling, s.at(kWorst));
    for (int blend = 0; blend < 20; ++blend) {
      const auto x = drawn_shares(draw, kOils.size(), 4);
      const double low = floor.at(x), high = ceiling.at(x);
      for (int lot = 0; lot < 100; ++lot) {
        const double value = s.value(property, drawn_lots(s.book, bits), x);
        REQUIRE(value >= low - 1e-9);
        REQUIRE(value <= high + 1e-9);
      }
    }
  }
}

TEST_CASE("worst-case: the floor is met by real lots, so nothing is given away", "[sure]") {
  const Setting& s = setting();
  Uniform draw(6);
  for (const Property property : kProperties) {
    const auto form = s.model.form(property, s.settings);
    const Measure floor = sure_measure(property_subject(property), {}, End::floor, s.at(kWorst));
    for (int blend = 0; blend < 20; ++blend) {
      const auto x = drawn_shares(draw, kOils.size(), 4);
      // With and without the bend's help, every oil at its own worst lot.
      double least = INFINITY;
      for (const bool helped : {false, true}) {
        targets::Weights weights = form.linear;
        for (const auto& bend : form.bends)
          for (std::size_t k = 0; k < weights.size() && helped; ++k)
            weights[k] += bend.weight * bend.slope[k];
        std::vector<targets::Composition> lots;
        for (const auto& range : s.book.ranges)
          lots.push_back(targets::extreme_lot(range, weights, !form.rising()));
        least = std::min(least, s.value(property, lots, x));
      }
      CHECK(floor.at(x) == Approx(least).margin(1e-9));
    }
  }
}

TEST_CASE("a sure measure's form changes sign at its value", "[sure]") {
  const Setting& s = setting();
  Uniform draw(7);
  const KnownBar known = bar_of(s.candidates, drawn_shares(draw, kOils.size(), 3));
  for (const Property property : kProperties) {
    for (const auto& level : {kWorst, kLikely}) {
      for (const End end : {End::floor, End::ceiling}) {
        const auto x = drawn_shares(draw, kOils.size(), 4);
        const auto subject = property_subject(property);
        for (const Measure& m : {sure_measure(subject, {}, end, s.at(level)),
                                 sure_difference(subject, {}, end, s.at(level), known)}) {
          const double value = m.at(x);
          CHECK(m.form(value - 1e-4).at(x) > 0);
          CHECK(m.form(value + 1e-4).at(x) < 0);
          CHECK(m.ends == (end == End::floor ? Measure::Ends::floor : Measure::Ends::ceiling));
        }
      }
    }
  }
}

TEST_CASE("likely: lots fail no more often than stated", "[sure]") {
  const Setting& s = setting();
  Uniform draw(8);
  std::mt19937_64 bits(10);
  constexpr int kLots = 4000;
  for (const double share : {0.8, 0.95}) {
    for (const Property property : kProperties) {
      const auto subject = property_subject(property);
      const SureLevel level{Sureness::likely, share};
      const Measure floor = sure_measure(subject, {}, End::floor, s.at(level));
      const Measure ceiling = sure_measure(subject, {}, End::ceiling, s.at(level));
      for (const int used : {1, 2, 5}) {
        const auto x = drawn_shares(draw, kOils.size(), used);
        const double low = floor.at(x), high = ceiling.at(x);
        int below = 0, above = 0;
        for (int lot = 0; lot < kLots; ++lot) {
          const double value = s.value(property, drawn_lots(s.book, bits), x);
          below += value < low - 1e-9;
          above += value > high + 1e-9;
        }
        INFO(targets::name(property) << ", " << used << " oils, share " << share);
        CHECK(share_interval(below, kLots).first <= 1 - share);
        CHECK(share_interval(above, kLots).first <= 1 - share);
      }
    }
  }
}

TEST_CASE("sure levels rise: worst-case keeps less than likely, likely less than typical",
          "[sure]") {
  const Setting& s = setting();
  Uniform draw(12);
  for (const Property property : kProperties) {
    const auto subject = property_subject(property);
    for (int blend = 0; blend < 10; ++blend) {
      const auto x = drawn_shares(draw, kOils.size(), 5);
      const double worst = sure_measure(subject, {}, End::floor, s.at(kWorst)).at(x);
      const double likely = sure_measure(subject, {}, End::floor, s.at(kLikely)).at(x);
      const double half =
          sure_measure(subject, {}, End::floor, s.at({Sureness::likely, 0.6})).at(x);
      CHECK(worst < likely);
      CHECK(likely < half);
    }
  }
}

TEST_CASE("the maker's own bar is no less than itself, however sure", "[sure]") {
  const Setting& s = setting();
  Uniform draw(13);
  for (int blend = 0; blend < 10; ++blend) {
    const auto y = drawn_shares(draw, kOils.size(), 4);
    const KnownBar known = bar_of(s.candidates, y);
    for (const Property property : kProperties) {
      for (const auto& level : {kWorst, kLikely}) {
        for (const End end : {End::floor, End::ceiling}) {
          const Measure m =
              sure_difference(property_subject(property), {}, end, s.at(level), known);
          INFO(targets::name(property));
          CHECK(m.at(y) == Approx(0).margin(1e-6));
        }
      }
    }
  }
}

TEST_CASE("worst-case: a difference holds whatever lots both bars are made from", "[sure]") {
  const Setting& s = setting();
  Uniform draw(14);
  std::mt19937_64 bits(15);
  for (const Property property : kProperties) {
    for (int blend = 0; blend < 10; ++blend) {
      const auto y = drawn_shares(draw, kOils.size(), 3), x = drawn_shares(draw, kOils.size(), 4);
      const KnownBar known = bar_of(s.candidates, y);
      const auto subject = property_subject(property);
      const double low = sure_difference(subject, {}, End::floor, s.at(kWorst), known).at(x);
      const double high = sure_difference(subject, {}, End::ceiling, s.at(kWorst), known).at(x);
      for (int lot = 0; lot < 100; ++lot) {
        const auto lots = drawn_lots(s.book, bits);
        const double off = s.value(property, lots, x) - s.value(property, lots, y);
        REQUIRE(off >= low - 1e-9);
        REQUIRE(off <= high + 1e-9);
      }
    }
  }
}

TEST_CASE("a difference keeps back what the model's readings doubt, less a noticeable step",
          "[sure]") {
  const Setting& s = setting();
  Uniform draw(16);
  for (const Property property : kProperties) {
    const auto y = drawn_shares(draw, kOils.size(), 3), x = drawn_shares(draw, kOils.size(), 4);
    const KnownBar known = bar_of(s.candidates, y);
    const double low =
        sure_difference(property_subject(property), {}, End::floor, s.at(kWorst), known).at(x);
    const auto doubt =
        targets::difference(s.model, s.model.readings(), property, mixed(s.candidates, x),
                            s.settings, known.composition, known.settings);
    // The mean of the worst twentieth lies below their best, the 5th percentile.
    CHECK(low <= doubt.low + targets::noticeable(property) + 1e-9);
    CHECK(low <= doubt.value + 1e-9);
  }
}

TEST_CASE("measured values vary by their own ranges", "[sure]") {
  const Setting& s = setting();
  std::vector<double> x(kOils.size(), 0.0);
  x[0] = x[1] = 0.5;
  const auto& olive = s.candidates[0].oil;
  const auto& coconut = s.candidates[1].oil;
  targets::Subject subject;
  subject.kind = targets::Subject::Kind::saponification_value;
  CHECK(sure_measure(subject, {}, End::floor, s.at(kWorst)).at(x) ==
        Approx((olive.saponification_value.span.low + coconut.saponification_value.span.low) / 2));
  CHECK(
      sure_measure(subject, {}, End::ceiling, s.at(kWorst)).at(x) ==
      Approx((olive.saponification_value.span.high + coconut.saponification_value.span.high) / 2));
  subject.kind = targets::Subject::Kind::acids;
  subject.acids = {core::FattyAcid::C12_0};
  CHECK(sure_measure(subject, {}, End::floor, s.at(kWorst)).at(x) ==
        Approx(coconut.acids[4]->span.low / 2));
  subject.kind = targets::Subject::Kind::acid_ratio;
  subject.over = {core::FattyAcid::C18_1};
  const double low = sure_measure(subject, {}, End::floor, s.at(kWorst)).at(x);
  std::mt19937_64 bits(3);
  for (int lot = 0; lot < 500; ++lot) {
    const auto mix = targets::mix(drawn_lots(s.book, bits), x);
    REQUIRE(core::at(mix.acids, core::FattyAcid::C12_0) /
                core::at(mix.acids, core::FattyAcid::C18_1) >=
            low - 1e-9);
  }
}

TEST_CASE("figures are compared over the lots both bars share", "[sure]") {
  const Setting& s = setting();
  Uniform draw(21);
  std::mt19937_64 bits(22);
  targets::Subject matter, acids, iodine;
  matter.kind = targets::Subject::Kind::unsaponifiable;
  acids.kind = targets::Subject::Kind::acids;
  acids.acids = {core::FattyAcid::C12_0, core::FattyAcid::C14_0};
  iodine.kind = targets::Subject::Kind::iodine_value;
  for (int blend = 0; blend < 20; ++blend) {
    const auto y = drawn_shares(draw, kOils.size(), 3), x = drawn_shares(draw, kOils.size(), 4);
    const KnownBar known = bar_of(s.candidates, y);
    for (const auto& subject : {matter, acids, iodine}) {
      for (const auto& level : {kWorst, kLikely}) {
        for (const End end : {End::floor, End::ceiling})
          CHECK(sure_difference(subject, {}, end, s.at(level), known).at(y) ==
                Approx(0).margin(1e-9));
      }
    }
    const double low = sure_difference(matter, {}, End::floor, s.at(kWorst), known).at(x);
    const double high = sure_difference(acids, {}, End::ceiling, s.at(kWorst), known).at(x);
    for (int lot = 0; lot < 100; ++lot) {
      const auto lots = drawn_lots(s.book, bits);
      const auto mine = targets::mix(lots, x), theirs = targets::mix(lots, y);
      REQUIRE(100 * (mine.unsaponifiable - theirs.unsaponifiable) >= low - 1e-9);
      const double more = mine.acids[4] + mine.acids[5] - theirs.acids[4] - theirs.acids[5];
      REQUIRE(100 * more <= high + 1e-9);
    }
  }
}

TEST_CASE("a certificate takes the doubt out of its own lot", "[sure]") {
  auto candidates = candidates_of({"olive"});
  oils::Certificate certificate;
  certificate.acids[static_cast<std::size_t>(core::FattyAcid::C18_1)] = 75;
  certificate.acids[static_cast<std::size_t>(core::FattyAcid::C16_0)] = 15;
  certificate.acids[static_cast<std::size_t>(core::FattyAcid::C18_2)] = 10;
  certificate.unsaponifiable = 1;
  candidates[0].oil = oils::certified(candidates[0].oil, certificate);
  candidates[0].composition = targets::composition(candidates[0].oil);
  const LotBook book = lot_book(candidates, true);
  const auto model = targets::PropertyModel::embedded();
  const targets::BarSettings settings;
  const std::vector<double> x = {1};
  for (const auto& level : {kWorst, kLikely}) {
    const SureGround ground{candidates, book, model, settings, level};
    CHECK(
        sure_measure(property_subject(Property::hardness), {}, End::floor, ground).at(x) ==
        Approx(model.value(Property::hardness, candidates[0].composition, settings)).margin(1e-9));
  }
}
