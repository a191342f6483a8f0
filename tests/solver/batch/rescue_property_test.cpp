#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>

#include "solver/batch/batch_rescue.hpp"
#include "targets/files/batch_file.hpp"
#include "tests/core/lye/fats.hpp"
#include "tests/solver/batch/rescue_model.hpp"

using namespace barwright;
using batch::Slip;
using namespace barwright::tests;

namespace {

using Kind = Slip::Kind;

std::string yaml(bool shared, const std::string& lye, bool topping, const std::string& body) {
  std::string out =
      "batch: slips\nscale: {oils: 1 g, lye: 0.1 g}\n"
      "moulds:\n  - {name: plank, count: 1, inside: [300 mm, 80 mm, 70 mm], fill-to: 48 mm}\n"
      "cut: {slice: 25 mm, kerf: 1 mm, end-trim: 4 mm}\n"
      "premixed:\n  yard mix: {olive: 70 %, rice bran: 30 %}\nlye-pot: ";
  out += shared ? "one\n" : "each part\n";
  out += "lye: {" + lye + "}\nparts:\n  body:\n" + body;
  if (topping) {
    out +=
        "  topping:\n    method: thick trace\n    blend: {beef tallow: 45 %, coconut: 25 %, "
        "high-oleic sunflower: 30 %}\n"
        "    superfat: 7 %\n    size: {per-bar: 60 g, left-in-bag: 12 %}\n";
  }
  return out;
}

struct Batch {
  std::string text;
  double cold_limit = 0.5;
};

/// Twenty invented batches: own pots and shared ones, one part and two, both alkalis, acids, milks.
std::vector<Batch> batches() {
  const std::string soda = "alkali: sodium hydroxide, concentration: 33 %";
  const std::string mixed =
      "alkali: {sodium hydroxide: 70 %, potassium hydroxide: 30 %, by: moles}, strength: {sodium "
      "hydroxide: 99 %, potassium hydroxide: 90 %}, concentration: 33 %";
  const std::string potash =
      "alkali: potassium hydroxide, strength: {potassium hydroxide: 90 %}, concentration: 36 %";
  const std::string plain =
      "    superfat: 7 %\n    blend: {olive: 50 %, coconut: 30 %, lard: 14 %, castor: 6 %}\n";
  const std::string premix = "    superfat: 6 %\n    blend: {yard mix: 60 %, coconut: 40 %}\n";
  const std::string wetted =
      "    superfat: 7 %\n    blend: {olive: 60 %, coconut: 30 %, castor: 10 %}\n"
      "    wet-colour-with: {oil: castor, each: 6 g, taken-from: blend}\n"
      "    colours: [{name: mud, share: 100 %, with: [{brown iron oxide: 2.4 g}]}]\n";
  const std::string milky = "    additives: [{goat milk: 80 g in all}, {oat flour: 9 g in all}]\n";
  const std::string citric = ", acids: [{citric acid anhydrous: 12 g per kg oils}]";
  const std::string lactic = ", acids: [{lactic acid 80 %: 12 g per kg oils}]";
  const std::string ice = ", liquids: [{whole milk: 200 g per kg oils, frozen: yes}]";
  const std::string syrup = ", into-lye: [{sodium lactate syrup 60 %: 18 g per kg oils}]";
  std::vector<Batch> out;
  for (const bool shared : {false, true}) {
    for (const auto& lye : {soda, mixed, potash}) {
      out.push_back({yaml(shared, lye, true, plain)});
      out.push_back({yaml(shared, lye + citric, false, plain + milky)});
    }
    out.push_back({yaml(shared, soda + syrup, true, wetted)});
    out.push_back({yaml(shared, mixed + lactic, true, premix + milky)});
  }
  out.push_back({yaml(false, soda + ice, false, plain)});
  out.push_back({yaml(false, mixed + ice + citric, false, premix)});
  out.push_back({yaml(false, soda + lactic, true, plain + milky)});
  // Lye at 12 C: the curve's points at 10 C (35 %) and 15.6 C (38.8 %), recalled, between them.
  out.push_back({yaml(false, soda, false, plain + "    lye-at: 12 C\n"), 0.35 + 0.038 * 2 / 5.6});
  return out;
}

class Judge {
 public:
  Judge(const batch::BatchPlan& plan, double cold_limit) : plan_(plan) {
    for (const auto& part : plan.parts) {
      models_.push_back(model_of(plan, part, cold_limit));
      const auto [nominal, worst] = models_.back().superfat();
      CHECK(nominal == Approx(part.check.superfat).margin(1e-6));
      CHECK(worst == Approx(part.check.band.low).margin(1e-6));
    }
  }

  const std::vector<Model>& models() const { return models_; }

  /// Asks, and holds the answer to what the changed models say.
  void ask(const std::vector<Slip>& slips, const std::vector<Model>& after) {
    const batch::Rescue rescue = batch::rescue(plan_, slips);
    INFO(rescue.happened);
    for (std::size_t i = 0; i < after.size(); ++i) {
      const auto [nominal, worst] = after[i].superfat();
      const std::string& name = plan_.parts[i].part->name;
      const auto said = std::find_if(rescue.parts.begin(), rescue.parts.end(),
                                     [&](const auto& part) { return part.part == name; });
      if (said == rescue.parts.end()) {  // not touched: as planned, which is never below its floor
        good_ = good_ && worst >= -1e-6;
        continue;
      }
      ++answers_;
      if (std::abs(said->now.superfat - nominal) > 1e-6 ||
          std::abs(said->now.band.low - worst) > 1e-6) {
        FAIL_CHECK(name << ": says " << said->now.superfat << ", " << said->now.band.low
                        << "; recomputed " << nominal << ", " << worst);
        good_ = false;
      }
      if (said->verdict == batch::RescueVerdict::safe) {
        ++safe_;
        if (worst < -1e-6 || after[i].strength() > after[i].cold_limit + 1e-9) {
          FAIL_CHECK(name << " said safe at " << worst << ", lye of " << after[i].strength());
          good_ = false;
        }
      }
      if (said->verdict == batch::RescueVerdict::hold && !said->fixes.empty()) {
        FAIL_CHECK(name << ": held, with a fix");
      }
      if (said->verdict == batch::RescueVerdict::mend && said->fixes.empty()) {
        FAIL_CHECK(name << ": to mend, without a fix");
      }
      for (const auto& fix : said->fixes) check_fix(after[i], fix, name);
    }
  }

  int answers() const { return answers_; }
  int safe() const { return safe_; }
  bool good() const { return good_; }

 private:
  void check_fix(const Model& after, const batch::RescueFix& fix, const std::string& name) {
    if (fix.after.band.low < 0) FAIL_CHECK(name << ": a fix that ends below zero");
    if (fix.what == "lye" && !fix.put_back) {  // less weighed out; a shared pot topped up
      Model mended = after;
      const std::string from = "Weigh out ";
      const double grams = std::stod(fix.how.substr(fix.how.find(from) + from.size()));
      set_grams(mended, {Line::Kind::lye, 0, "lye"}, grams);
      if (mended.shared) {
        mended.water += std::max(0.0, after.making_weight - after.grams_in_pot());
        mended.making_weight = mended.grams_in_pot();
      }
      const auto [nominal, worst] = mended.superfat();
      if (std::abs(nominal - fix.after.superfat) > 1e-6 || worst < -1e-6) {
        FAIL_CHECK(name << ": the pot mended is at " << nominal << ", " << worst << ", not at "
                        << fix.after.superfat);
      }
    }
    for (const auto& fat : after.fats) {
      if (fix.put_back || fix.what != fat.name || fat.of_addition >= 0) continue;
      Model mended = after;
      mended.fats.push_back(fat);
      mended.fats.back().grams = fix.grams;
      if (mended.superfat().second < -1e-6)
        FAIL_CHECK(name << ": " << fix.what << " is too little");
    }
  }

  const batch::BatchPlan& plan_;
  std::vector<Model> models_;
  int answers_ = 0, safe_ = 0;
  bool good_ = true;
};

Slip slip(Kind kind, const Line& line, double grams, const std::string& part) {
  Slip out;
  out.kind = kind;
  out.line = line.name;
  out.grams = grams;
  out.part = part;
  return out;
}

bool refused(const batch::BatchPlan& plan, const Slip& slip) {
  try {
    batch::rescue(plan, std::vector{slip});
  } catch (const batch::SlipError& error) {
    return !error.message.empty();
  }
  return false;
}

}  // namespace

TEST_CASE("nothing is said safe that is below zero at its worst", "[rescue]") {
  const auto library = oils::Library::embedded();
  const auto all = batches();
  REQUIRE(all.size() == 20);
  tests::Dice dice(20270402);
  int answers = 0, safe = 0;
  for (std::size_t b = 0; b < all.size(); ++b) {
    const std::string path = "/tmp/barwright-slips.yaml";
    std::ofstream(path, std::ios::binary) << all[b].text;
    INFO(all[b].text);
    const auto plan = batch::plan_batch(targets::read_batch(path, library), library, {});
    Judge judge(plan, all[b].cold_limit);
    const auto& models = judge.models();
    for (std::size_t p = 0; p < models.size(); ++p) {
      const auto lines = lines_of(models[p]);
      for (const auto& line : lines) {
        const bool of_pot = line.kind == Line::Kind::alkali || line.kind == Line::Kind::water;
        const std::string part = of_pot && plan.shared ? "" : plan.parts[p].part->name;
        const double there = grams_of(models[p], line);
        const auto with = [&](double grams) {
          auto after = models;
          change(after, p, line, grams);
          return after;
        };
        judge.ask({slip(Kind::forgotten, line, 0, part)}, with(0));
        for (const double share : {0.004, 0.02, 0.05, 0.5, 2.0}) {
          const double by = std::max(0.1, share * there);
          judge.ask({slip(Kind::too_much, line, by, part)}, with(there + by));
          if (by > there) {
            CHECK(refused(plan, slip(Kind::too_little, line, 1.01 * there, part)));
            continue;
          }
          judge.ask({slip(Kind::too_little, line, by, part)}, with(there - by));
        }
        if (line.kind == Line::Kind::alkali) {
          for (const double strength : {0.85, 0.93, 1.0}) {
            auto after = models;
            for (auto& model : after) {
              auto& one = model.alkali[line.at];
              one.stated = strength;
              // A potash label below 90 % may be a floor: lots of 92 % are sold under it.
              one.strongest = line.name == "NaOH" ? 1
                              : strength < 0.90   ? 0.92
                                                  : std::min(1.0, strength + 0.01);
            }
            Slip asked = slip(Kind::strength, line, 0, "");
            asked.strength = strength;
            judge.ask({asked}, after);
          }
        }
        for (const auto& other : lines) {
          if (&other == &line) continue;
          Slip swap = slip(Kind::exchanged, line, 0, part);
          swap.other = other.name;
          Slip instead = swap;
          instead.kind = Kind::instead;
          const bool other_of_pot =
              other.kind == Line::Kind::alkali || other.kind == Line::Kind::water;
          if (other_of_pot && plan.shared) instead.part.clear();
          if (line.kind != other.kind) {
            CHECK(refused(plan, swap));
            CHECK(refused(plan, instead));
            continue;
          }
          const double belongs = grams_of(models[p], other);
          auto after = with(belongs);
          change(after, p, other, there);
          judge.ask({swap}, after);
          after = with(there + belongs);
          change(after, p, other, 0);
          judge.ask({instead}, after);
        }
      }
      // Two slips at once.
      for (int round = 0; round < 60; ++round) {
        const auto pick = [&]() -> const Line& {
          return lines[static_cast<std::size_t>(dice.whole(0, static_cast<int>(lines.size()) - 1))];
        };
        const Line &one = pick(), &two = pick();
        if (one.name == two.name || one.kind == Line::Kind::lye || two.kind == Line::Kind::lye) {
          continue;
        }
        const auto part_of = [&](const Line& line) {
          const bool of_pot = line.kind == Line::Kind::alkali || line.kind == Line::Kind::water;
          return of_pot && plan.shared ? std::string() : plan.parts[p].part->name;
        };
        const double more = dice.between(0.01, 0.6) * grams_of(models[p], two);
        if (!(more > 0)) continue;
        auto after = models;
        change(after, p, one, 0);
        change(after, p, two, grams_of(models[p], two) + more);
        judge.ask({slip(Kind::forgotten, one, 0, part_of(one)),
                   slip(Kind::too_much, two, more, part_of(two))},
                  after);
      }
    }
    CHECK(judge.good());
    answers += judge.answers();
    safe += judge.safe();
  }
  CHECK(answers > 5000);
  CHECK(safe > 1000);
}
