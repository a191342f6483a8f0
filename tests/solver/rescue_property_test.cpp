#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>

#include "solver/batch_rescue.hpp"
#include "targets/batch_file.hpp"
#include "tests/core/fats.hpp"

// Everything is recomputed here with arithmetic of its own: what stands in the pot after a slip,
// and its worst case. Only the planned weights and the oils' figures are taken from the plan.

using namespace barwright;
using solver::Slip;

namespace {

using Kind = Slip::Kind;

// Molar masses, g/mol, from IUPAC atomic masses.
constexpr double kNaoh = 39.997, kKoh = 56.106;

struct Model {
  struct Fat {
    std::string name;
    double grams = 0, low = 0, typical = 0, error = 0;
    double of_addition = -1;  // g of fat per g of the addition
  };
  struct Acid {
    std::string name;
    double grams = 0, moles = 0, least = 0, water = 0;  // per g
  };
  struct Addition {
    std::string name;
    double grams = 0, water = 0;
    bool in_lye = false;
  };
  struct Alkali {
    double grams = 0, stated = 0, strongest = 0, molar = 0, error = 0;
  };
  std::vector<Fat> fats;
  std::vector<Acid> acids;
  std::vector<Addition> additions;
  std::vector<Alkali> alkali;  // of the pot the lye is in
  double water = 0;
  bool shared = false, no_lye = false;
  double portion = 0, making_weight = 0, lye_error = 0, cold_limit = 0.5;

  double grams_in_pot() const {
    double sum = water;
    for (const auto& line : alkali) sum += line.grams;
    return sum;
  }
  double strength() const {
    double pure = 0, all = grams_in_pot();
    for (const auto& line : alkali) pure += line.grams * line.stated;
    if (!shared) {
      for (const auto& acid : acids) all += acid.grams * acid.water;
      for (const auto& one : additions) all += one.in_lye ? one.grams * one.water : 0;
    }
    return no_lye || all <= 0 ? 0 : pure / all;
  }
  /// Superfat, nominal and worst.
  std::pair<double, double> superfat() const {
    double low = 0, need = 0, nominal = 0, most = 0;
    for (const auto& fat : fats) {
      if (fat.grams <= 0) continue;
      need += fat.grams * fat.typical / 1000 / kKoh;
      low += std::max(0.0, fat.grams - fat.error) * fat.low / 1000 / kKoh;
    }
    const double weight = std::min(making_weight, grams_in_pot());
    for (const auto& line : alkali) {
      if (line.grams <= 0 || no_lye) continue;
      if (shared) {
        // Pot, portion and total each off by the scale's error, all against you.
        nominal += line.grams * line.stated * portion / weight / line.molar;
        most += (line.grams + lye_error) * line.strongest * (portion + lye_error) /
                (weight - lye_error) / line.molar;
      } else {
        nominal += line.grams * line.stated / line.molar;
        most += (line.grams + line.error) * line.strongest / line.molar;
      }
    }
    for (const auto& acid : acids) {
      nominal -= acid.grams * acid.moles;
      most -= std::max(0.0, acid.grams - lye_error) * acid.least;
    }
    if (need <= 0) return {-1, -1};
    return {1 - nominal / need, low > 0 ? 1 - most / low : -1};
  }
};

Model model_of(const solver::BatchPlan& plan, const solver::PartPlan& part, double cold_limit) {
  Model out;
  out.lye_error = plan.scales.lye.step;
  out.cold_limit = cold_limit;
  const auto add_fat = [&](const core::PotFat& fat, double grams) {
    const auto& span = fat.saponification_value;
    out.fats.push_back({fat.name, grams,
                        std::min(span.low, span.typical * (fat.certified ? 0.995 : 0.98)),
                        span.typical, plan.scales.oils.step});
  };
  const auto& request = part.request;
  for (std::size_t i = 0; i < request.oils.size(); ++i) {
    add_fat(request.oils[i], part.recipe.oils[i].grams);
  }
  for (std::size_t i = 0; i < request.other_fats.size(); ++i) {
    add_fat(request.other_fats[i], part.recipe.other_fats[i].grams);
  }
  const auto add_addition = [&](const core::Addition& one, double grams) {
    out.additions.push_back({one.name, grams, one.water, one.into == core::Into::lye});
    if (one.fat <= 0) return;
    const auto& span = one.fat_saponification_value;
    // Milk fat by lot: a fifth either way.
    out.fats.push_back({one.name, grams * one.fat, std::min(span.low, span.typical * 0.98),
                        span.typical, 0.2 * grams * one.fat, one.fat});
  };
  for (std::size_t i = 0; i < request.liquids.size(); ++i) {
    add_addition(request.liquids[i], part.recipe.liquids[i].grams);
  }
  for (std::size_t i = 0; i < request.additives.size(); ++i) {
    add_addition(request.additives[i], part.recipe.additives[i].grams);
  }
  for (std::size_t i = 0; i < request.acids.size(); ++i) {
    const auto& acid = request.acids[i];
    Model::Acid one{acid.name, part.recipe.acids[i].grams};
    if (acid.form == core::AcidForm::citric_anhydrous) {
      one.moles = one.least = 3 / 192.123;
    } else {  // lactic, a solution that may be 5 % weaker
      REQUIRE(acid.form == core::AcidForm::lactic);
      one.moles = acid.strength / 90.078;
      one.least = 0.95 * one.moles;
      one.water = 1 - acid.strength;
    }
    out.acids.push_back(one);
  }
  const auto add_alkali = [&](core::Alkali alkali, double grams, double stated) {
    const bool soda = alkali == core::Alkali::sodium_hydroxide;
    out.alkali.push_back({grams, stated, soda ? 1 : std::min(1.0, stated + 0.01),
                          soda ? kNaoh : kKoh, plan.scales.lye.step});
  };
  if (plan.shared) {
    out.shared = true;
    for (const auto& line : plan.shared->alkali) add_alkali(line.alkali, line.grams, line.purity);
    out.water = plan.shared->water_grams;
    out.making_weight = plan.shared->making_weight;
    out.portion = part.portion->solution_grams;
  } else {
    for (const auto& line : part.recipe.alkali) add_alkali(line.alkali, line.grams, line.purity);
    out.water = part.recipe.water_grams;
  }
  return out;
}

/// A line of a part, as the test names it.
struct Line {
  enum class Kind { fat, acid, addition, alkali, water, lye } kind = Kind::fat;
  std::size_t at = 0;
  std::string name;
};

std::vector<Line> lines_of(const Model& model) {
  std::vector<Line> out;
  for (std::size_t i = 0; i < model.fats.size(); ++i) {
    if (model.fats[i].of_addition < 0) out.push_back({Line::Kind::fat, i, model.fats[i].name});
  }
  for (std::size_t i = 0; i < model.acids.size(); ++i) {
    out.push_back({Line::Kind::acid, i, model.acids[i].name});
  }
  for (std::size_t i = 0; i < model.additions.size(); ++i) {
    out.push_back({Line::Kind::addition, i, model.additions[i].name});
  }
  for (std::size_t i = 0; i < model.alkali.size(); ++i) {
    out.push_back({Line::Kind::alkali, i, model.alkali[i].molar == kNaoh ? "NaOH" : "KOH"});
  }
  out.push_back({Line::Kind::water, 0, "water"});
  out.push_back({Line::Kind::lye, 0, "lye"});
  return out;
}

void set_addition(Model& model, std::size_t at, double grams) {
  model.additions[at].grams = grams;
  for (auto& fat : model.fats) {
    if (fat.of_addition < 0 || fat.name != model.additions[at].name) continue;
    fat.grams = grams * fat.of_addition;
    fat.error = 0.2 * fat.grams;
  }
}

double own_lye(const Model& model) {
  double grams = model.grams_in_pot();
  for (const auto& one : model.additions) grams += one.in_lye ? one.grams : 0;
  return grams;
}

double grams_of(const Model& model, const Line& line) {
  switch (line.kind) {
    case Line::Kind::fat:
      return model.fats[line.at].grams;
    case Line::Kind::acid:
      return model.acids[line.at].grams;
    case Line::Kind::addition:
      return model.additions[line.at].grams;
    case Line::Kind::alkali:
      return model.alkali[line.at].grams;
    case Line::Kind::water:
      return model.water;
    case Line::Kind::lye:
      return model.shared ? model.portion : own_lye(model);
  }
  return 0;
}

void set_grams(Model& model, const Line& line, double grams) {
  switch (line.kind) {
    case Line::Kind::fat:
      model.fats[line.at].grams = grams;
      break;
    case Line::Kind::acid:
      model.acids[line.at].grams = grams;
      break;
    case Line::Kind::addition:
      set_addition(model, line.at, grams);
      break;
    case Line::Kind::alkali:
      model.alkali[line.at].grams = grams;
      break;
    case Line::Kind::water:
      model.water = grams;
      break;
    case Line::Kind::lye: {
      if (grams == 0) model.no_lye = true;
      if (model.shared) {
        model.portion = grams;
        break;
      }
      const double factor = grams / own_lye(model);
      for (auto& one : model.alkali) {
        one.grams *= factor;
        one.error *= std::max(1.0, factor);
      }
      model.water *= factor;
      for (std::size_t i = 0; i < model.additions.size(); ++i) {
        if (model.additions[i].in_lye) set_addition(model, i, factor * model.additions[i].grams);
      }
      break;
    }
  }
}

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
  Judge(const solver::BatchPlan& plan, double cold_limit) : plan_(plan) {
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
    const solver::Rescue rescue = solver::rescue(plan_, slips);
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
      if (said->verdict == solver::RescueVerdict::safe) {
        ++safe_;
        if (worst < -1e-6 || after[i].strength() > after[i].cold_limit + 1e-9) {
          FAIL_CHECK(name << " said safe at " << worst << ", lye of " << after[i].strength());
          good_ = false;
        }
      }
      if (said->verdict == solver::RescueVerdict::hold && !said->fixes.empty()) {
        FAIL_CHECK(name << ": held, with a fix");
      }
      if (said->verdict == solver::RescueVerdict::mend && said->fixes.empty()) {
        FAIL_CHECK(name << ": to mend, without a fix");
      }
      for (const auto& fix : said->fixes) check_fix(after[i], fix, name);
    }
  }

  int answers() const { return answers_; }
  int safe() const { return safe_; }
  bool good() const { return good_; }

 private:
  void check_fix(const Model& after, const solver::RescueFix& fix, const std::string& name) {
    if (fix.after.band.low < 0) FAIL_CHECK(name << ": a fix that ends below zero");
    if (fix.what == "lye" && !fix.put_back) {  // a shared pot topped up, and less weighed out of it
      Model mended = after;
      const std::string from = "Weigh out ";
      mended.portion = std::stod(fix.how.substr(fix.how.find(from) + from.size()));
      mended.water += std::max(0.0, after.making_weight - after.grams_in_pot());
      mended.making_weight = mended.grams_in_pot();
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

  const solver::BatchPlan& plan_;
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

/// What hits the pot of a shared lye hits every part's model.
void change(std::vector<Model>& models, std::size_t part, const Line& line, double grams) {
  const bool all =
      models[part].shared && (line.kind == Line::Kind::alkali || line.kind == Line::Kind::water);
  for (std::size_t i = 0; i < models.size(); ++i) {
    if (all || i == part) set_grams(models[i], line, grams);
  }
}

bool refused(const solver::BatchPlan& plan, const Slip& slip) {
  try {
    solver::rescue(plan, std::vector{slip});
  } catch (const solver::SlipError& error) {
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
    const auto plan = solver::plan_batch(targets::read_batch(path, library), library, {});
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
              one.strongest = one.molar == kNaoh ? 1 : std::min(1.0, strength + 0.01);
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
