// What is learned from notes, beside makers whose truth is known because they are made up here.
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <ctime>
#include <numeric>

#include "targets/model/words.hpp"
#include "tune_testing.hpp"

using namespace barwright;
using namespace barwright::tune;
using namespace barwright::tune::testing;

namespace {

std::vector<double> drawn(std::size_t size, Dice& dice) {
  std::vector<double> out;
  for (std::size_t i = 0; i < size; ++i) out.push_back(dice.normal());
  return out;
}

}  // namespace

namespace {

std::size_t asked_for(const char* name, std::size_t unless) {
  const char* text = std::getenv(name);
  return text != nullptr ? std::strtoul(text, nullptr, 10) : unless;
}

double mean_of(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

// What simulated makers' truths are beside what is learned of them.
struct Calibration {
  std::vector<std::vector<std::size_t>> bins;  // per difference: of ten, where the truth ranks
  std::size_t inside = 0, all = 0;             // of 90 % bands
  double tuned = 0, print = 0;                 // sums of squared errors, in steps
};

// Figures for makers who lie: the truth is told to `spoil` before it becomes notes.
Calibration calibrate(const NotesModel& design, std::size_t makers, std::size_t steps) {
  Calibration out;
  out.bins.assign(std::min<std::size_t>(10, design.asked().size()),
                  std::vector<std::size_t>(10, 0));
  const std::vector<double> central = design.differences(std::vector<double>(design.size(), 0.0));
  for (std::size_t maker = 0; maker < makers; ++maker) {
    Dice dice(1000 + maker);
    const std::vector<double> truth = drawn(design.size(), dice);
    const std::vector<double> real = design.differences(truth);
    const NotesModel model = model_of(design.simulated(truth, dice));
    LearnOptions options;
    options.steps = options.most_steps = steps;
    options.readings = 99;
    options.seed = maker + 1;
    const Learned learned = learn(model, options);
    std::vector<std::vector<double>> rows(real.size());
    for (const auto& z : learned.states) {
      const auto differences = model.differences(z);
      for (std::size_t f = 0; f < rows.size(); ++f) rows[f].push_back(differences[f]);
    }
    for (std::size_t f = 0; f < out.bins.size(); ++f) {
      std::size_t below = 0;
      for (const double one : rows[f]) below += one < real[f] ? 1 : 0;
      ++out.bins[f][below / 10];
      out.inside += below >= 5 && below < 95 ? 1 : 0;
      ++out.all;
      const double step = targets::noticeable(design.asked()[f].property);
      out.tuned += std::pow((mean_of(rows[f]) - real[f]) / step, 2);
      out.print += std::pow((central[f] - real[f]) / step, 2);
    }
  }
  return out;
}

// Of ten equal bins; 9 degrees of freedom.
double chi_square(const std::vector<std::size_t>& bins) {
  double count = 0, sum = 0;
  for (const std::size_t bin : bins) count += static_cast<double>(bin);
  for (const std::size_t bin : bins)
    sum += std::pow(static_cast<double>(bin) - count / 10, 2) / (count / 10);
  return sum;
}

std::string measured() {
  return R"(  - {measure: grams lost, judged: 2027-03-01, found: {yard 1: 4 g, shea 1: 4 g, lard 1: 4 g, salt-free 1: 4 g}}
  - {measure: minutes to trace, judged: 2027-01-19, found: {yard 1: 9 min, pomace 1: 9 min, lard 1: 9 min, salt-free 1: 9 min}}
)";
}

}  // namespace

TEST_CASE("what is learned of made-up makers is as sure as it says, and nearer than print") {
  // 1,000 makers: MAKERS=1000 STEPS=1000 tests_solver "what is learned of made-up*" (hours of
  // them).
  const NotesModel design =
      model_of(notes_of(pours() + comparisons(asked_for("NOTES", 16)) + measured()));
  REQUIRE(design.asked().size() >= 10);
  const std::size_t makers = asked_for("MAKERS", 20);
  const Calibration found = calibrate(design, makers, asked_for("STEPS", 150));
  double most = 0;
  for (const auto& bins : found.bins) most = std::max(most, chi_square(bins));
  const double inside = static_cast<double>(found.inside) / static_cast<double>(found.all);
  const double tuned = std::sqrt(found.tuned / static_cast<double>(found.all));
  const double print = std::sqrt(found.print / static_cast<double>(found.all));
  INFO("makers " << makers << ", in 90 % bands " << inside << ", greatest chi square " << most
                 << ", rms in steps " << tuned << " against print's " << print);
  // 1 % over all ten differences: 0.1 % each, 9 degrees of freedom (recalled table: 27.9).
  CHECK(most < 27.9);
  // The makers' own differences hang together: four standard errors of as many makers as there are.
  CHECK(inside == Approx(0.9).margin(4 * 0.3 / std::sqrt(static_cast<double>(found.all) / 4)));
  CHECK(tuned < print);
  if (std::getenv("MAKERS") != nullptr)
    WARN("as above: in bands " << inside << ", chi " << most << ", rms " << tuned << " / "
                               << print);
}

TEST_CASE("a note that says nothing of the blend leaves print as it is, with what oils may do") {
  // Two pours of one bar are alike: that says something of pours and hands, nothing of chemistry.
  const NotesModel model = model_of(
      notes_of(pours() +
               "notes:\n  - {compare: yard 1, against: yard 2, judged: 2027-03-01, blind: yes, "
               "hardness: no difference}\n"));
  LearnOptions options;
  options.steps = options.most_steps = 400;
  const Learned learned = learn(model, options);
  const auto apart = [&](std::span<const double> z) {
    const targets::PropertyModel all = model.model(z);
    const auto &a = model.bars()[1], &b = model.bars()[0];
    return all.value(targets::Property::hardness, a.composition, a.settings) -
           all.value(targets::Property::hardness, b.composition, b.settings);
  };
  std::vector<double> after, before;
  for (const auto& z : learned.states) after.push_back(apart(z));
  Dice dice(8);
  for (int i = 0; i < 2000; ++i) before.push_back(apart(drawn(model.size(), dice)));
  const double centre = mean_of(before);
  double spread = 0, spread_after = 0;
  for (const double one : before) spread += std::pow(one - centre, 2) / 2000;
  for (const double one : after) spread_after += std::pow(one - mean_of(after), 2) / 400;
  // Four standard errors; 400 kept draws of runs this short are worth about 200.
  CHECK(mean_of(after) == Approx(centre).margin(4 * std::sqrt(spread / 200)));
  CHECK(spread_after == Approx(spread).epsilon(0.5));
}

TEST_CASE("a note turned round is pointed at, and honest ones are left in peace") {
  const NotesModel design = model_of(notes_of(pours() + comparisons(asked_for("NOTES", 42))));
  std::size_t lies = 0, found = 0, honest = 0, blamed = 0;
  for (std::size_t maker = 0; maker < asked_for("MAKERS", 8); ++maker) {
    Dice dice(500 + maker);
    const std::vector<double> truth = drawn(design.size(), dice);
    targets::MakerNotes notes = design.simulated(truth, dice);
    const std::vector<double> real = design.predictors(truth);
    // One lie a maker: the first "clearly" of which the truth is beyond two steps, turned round.
    std::size_t lie = real.size();
    for (std::size_t i = 0; i < real.size() && lie == real.size(); ++i) {
      targets::Verdict& verdict = notes.comparisons[i].verdicts.front();
      if (std::abs(real[i]) < 2) continue;
      if (verdict == targets::Verdict::clearly_more && real[i] > 0) {
        verdict = targets::Verdict::clearly_less;
      } else if (verdict == targets::Verdict::clearly_less && real[i] < 0) {
        verdict = targets::Verdict::clearly_more;
      } else {
        continue;
      }
      lie = i;
    }
    const NotesModel model = model_of(notes);
    LearnOptions options;
    options.steps = options.most_steps = asked_for("STEPS", 150);
    const Learned learned = learn(model, options);
    for (std::size_t i = 0; i < real.size(); ++i) {
      (i == lie ? lies : honest) += 1;
      if (learned.strays[i] > 0.5) (i == lie ? found : blamed) += 1;
    }
  }
  INFO(found << " of " << lies << " lies, " << blamed << " of " << honest << " honest notes");
  REQUIRE(lies > 4);
  CHECK(2 * found >= lies);
  CHECK(static_cast<double>(blamed) < 0.05 * static_cast<double>(honest));
  if (std::getenv("MAKERS") != nullptr)
    WARN(found << " of " << lies << " lies, " << blamed << " of " << honest << " honest notes");
}

TEST_CASE("the same notes are learned to the same byte, and a raised flag ends with nothing") {
  const NotesModel model = model_of(notes_of(pours() + comparisons(6)));
  LearnOptions options;
  options.steps = options.most_steps = 60;
  const Learned one = learn(model, options), other = learn(model, options);
  CHECK(one.states == other.states);
  CHECK(one.states.size() == 400);
  const std::atomic<bool> stop = true;
  options.stop = &stop;
  CHECK(learn(model, options).stopped);
}

TEST_CASE("drawing scales anew leaves every figure that notes speak of where it is") {
  const NotesModel model = model_of(notes_of(pours() + comparisons(12) + measured()));
  Dice dice(3);
  std::vector<double> z = drawn(model.size(), dice);
  const auto before = model.predictors(z);
  const std::vector<double> was = z;
  model.rescale(z, dice);
  CHECK(z != was);
  const auto after = model.predictors(z);
  for (std::size_t i = 0; i < before.size(); ++i) CHECK(after[i] == Approx(before[i]).margin(1e-6));
}

TEST_CASE("sayings add up to the whole, and pours are named by those that speak of them") {
  const NotesModel model = model_of(notes_of(pours() + comparisons(3) + measured()));
  // Four bars that print has alike in working time count by order, and equal figures have none.
  CHECK(model.sayings().size() == 3 + 4);
  CHECK(model.sayings()[0].pours == std::vector<std::size_t>{0, 1});
  CHECK(model.bars().size() == 6);
  CHECK(model.bar_of(1) == model.bar_of(0));
  Dice dice(3);
  const std::vector<double> z = drawn(model.size(), dice);
  const auto each = model.by_saying(z);
  CHECK(std::accumulate(each.begin(), each.end(), 0.0) == Approx(model.log_likelihood(z)));
}

TEST_CASE("figures of fewer than three clearly different bars count by their order alone") {
  const NotesModel model = model_of(notes_of(
      pours() +
      "notes:\n  - {measure: dent, judged: 2027-03-01, found: {yard 1: 3 mm, yard 2: 4 mm}}\n"));
  CHECK(model.sayings().size() == 1);
  CHECK(model.sayings()[0].pours == std::vector<std::size_t>{1, 0});
}

TEST_CASE("hand timing", "[.timing]") {
  const std::size_t count =
      std::getenv("NOTES") ? std::strtoul(std::getenv("NOTES"), nullptr, 10) : 100;
  Dice dice(4);
  const NotesModel design = model_of(notes_of(pours() + comparisons(count)));
  const NotesModel model = model_of(design.simulated(drawn(design.size(), dice), dice));
  const Learned learned = learn(model, {});
  double worst = 0, least = 1e9;
  for (const auto& one : learned.agreed) {
    worst = std::max(worst, one.r_hat);
    least = std::min(least, one.effective);
  }
  WARN(model.size() << " unknowns, " << learned.agreed.size() << " asked, settled "
                    << learned.settled << ", r_hat " << worst << ", effective " << least);
}
