#include "solver/app/swap/text_swap.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/units/weight_text.hpp"
#include "solver/app/blend/blend_words.hpp"
#include "solver/app/blend/text_blend.hpp"
#include "solver/app/blend/text_explain.hpp"
#include "solver/app/blend/text_manners.hpp"
#include "solver/app/print/chart.hpp"
#include "solver/app/print/page_parts.hpp"
#include "solver/app/print/screen.hpp"
#include "solver/formulate/claim.hpp"
#include "solver/recipe/recipe_request.hpp"

namespace barwright::app {
namespace {

// From here a term is worth a word: half of what is just noticed (judgement).
constexpr double kWorthAWord = 0.5;

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const auto& word : words) out += (out.empty() ? "" : ", ") + word;
  return out;
}

// What a bar's oils cost is a matter of tenths of a cent.
std::string fine_money(double value, const std::string& currency) {
  return fmt::format("{:.3f} {}", value, currency);
}

const char* told_apart(double gap) {
  if (gap < 0.5) return "not to be told apart";
  if (gap < 1) return "hardly to be told apart";
  if (gap < 2) return "to be told apart, bar beside bar";
  return "clearly another";
}

class SwapText {
 public:
  SwapText(Screen& screen, const jobs::SwapJob& job, const jobs::BlendResult& found,
           const jobs::SwapResult& result)
      : screen_(screen), job_(job), found_(found), result_(result) {}

  void outside() {
    const auto& outside = result_.outside;
    screen_.heading("OUTSIDE THE POT", "before anything is poured");
    if (outside.new_names.empty() && outside.gone_names.empty()) {
      screen_.sentence("The list of ingredients keeps its names; their order may change.", "-");
    } else {
      std::string change;
      if (!outside.new_names.empty()) change += "new on it: " + joined(outside.new_names);
      if (!outside.gone_names.empty()) {
        change += (change.empty() ? "" : "; ") + ("gone from it: " + joined(outside.gone_names));
      }
      screen_.sentence("The list of ingredients changes; " + change + ".", "-");
    }
    screen_.sentence("Was: " + outside.list_before, "-");
    screen_.sentence("Is:  " + outside.list_after, "-");
    if (!outside.new_tags.empty()) {
      screen_.sentence(
          "New in this bar, check your claims and allergy notes: " + joined(outside.new_tags) + ".",
          "-");
    }
    if (!outside.kept_claims.empty()) {
      screen_.sentence("Kept true: " + joined(outside.kept_claims) + ".", "-");
    }
    screen_.sentence(
        "Where the law asks for a safety assessment of each formula (EU and UK: the safety report, "
        "and the notification), the assessor must see the new one before it is sold. " +
            core::law_note(),
        "-");
  }

  void blends() {
    std::vector<std::vector<std::string>> rows = {{"", "old", "new", "", ""}};
    for (const auto& line : result_.lines) {
      const double change = line.after - line.before;
      rows.push_back({line.oil, percent(line.before), percent(line.after, 1),
                      std::abs(change) < 5e-4 ? "as it was"
                      : line.before == 0      ? "new"
                      : line.after == 0       ? "out"
                                              : fmt::format("{:+.1f} points", 100 * change),
                      line.to_buy_grams > 0.5
                          ? core::round_grams(line.to_buy_grams) + " short for one batch"
                          : ""});
    }
    screen_.heading("OLD AND NEW", "share of the oils");
    screen_.table("lrrll", rows);
  }

  void felt() {
    screen_.heading("WHAT IS FELT", "1 step: what a user would just notice (our judgement)");
    std::vector<std::vector<std::string>> rows;
    std::vector<std::string> words(targets::kFeelPartCount);
    const auto& terms = targets::feel_terms();
    for (std::size_t t = 0; t < terms.size(); ++t) {
      const double gap = result_.gap.terms[t];
      if (std::abs(gap) < kWorthAWord) continue;
      auto& text = words[static_cast<std::size_t>(terms[t].part)];
      text += (text.empty() ? "" : "; ") +
              fmt::format("{} ({:+.1f})", gap > 0 ? terms[t].more : terms[t].less, gap);
    }
    for (std::size_t p = 0; p < targets::kFeelPartCount; ++p) {
      const double gap = result_.gap.parts[p];
      rows.push_back({targets::words(static_cast<targets::FeelPart>(p)), fmt::format("{:.1f}", gap),
                      told_apart(gap)});
    }
    screen_.table("lrl", rows);
    for (std::size_t p = 0; p < targets::kFeelPartCount; ++p) {
      if (words[p].empty()) continue;
      screen_.sentence(
          fmt::format("{}: {}.", targets::words(static_cast<targets::FeelPart>(p)), words[p]), "-");
    }
  }

  void saved() {
    screen_.heading("WHAT IS SAVED");
    if (!result_.saving) {
      screen_.sentence("Not reckoned: no price is known for " + joined(unpriced()) +
                       ". Put it into the shelf file, or add --prices.");
      return;
    }
    const auto& saving = *result_.saving;
    const std::string& currency = job_.blend.candidates.currency;
    screen_.sentence(fmt::format(
        "{} {} per bar ({} before, {} now), {} per batch of {} bars.",
        fine_money(std::abs(saving.per_bar), currency), saving.per_bar >= 0 ? "saved" : "MORE",
        fine_money(saving.old_per_bar, currency), fine_money(saving.new_per_bar, currency),
        money(std::abs(saving.per_batch), currency), job_.bars));
    if (result_.first_order) {
      const auto& order = *result_.first_order;
      std::vector<std::vector<std::string>> rows = {{"packs", "oil", "pack", "price", "left over"}};
      for (const auto& item : order.items) {
        rows.push_back({fmt::format("{} x", item.count), item.oil,
                        pack_words(item.size, item.pack_grams), money(item.money, currency),
                        fmt::format("{}, worth {}", core::round_grams(item.left_grams),
                                    money(item.left_worth, currency))});
      }
      screen_.sentence("To buy for the first batch:");
      screen_.table("rlrrl", rows);
      std::string counted = "what is left over counted as lost";
      if (order.delivery > 0) {
        counted = "delivery of " + money(order.delivery, currency) + " and " + counted;
      }
      screen_.sentence(fmt::format(
          "With {}, the first batch {} {} per bar; all used up, the figure above holds.", counted,
          order.saved_per_bar >= 0 ? "saves" : "costs MORE:",
          fine_money(std::abs(order.saved_per_bar), currency)));
    }
    if (job_.bar_grams > 0) {
      screen_.sentence(fmt::format(
          "The recipe does not say how many bars it gives: {} of {} as cut are assumed. "
          "Write 'bars: {}' to settle it.",
          job_.bars, core::round_grams(job_.bar_grams), job_.bars));
    }
  }

  void lye() {
    const auto& before = job_.old_recipe;
    const auto& after = found_.recipe;
    const core::Scales scales = recipe::scales(job_.brief.scale);
    std::vector<std::vector<std::string>> rows = {{"", "old", "new"}};
    // In the order of work: the alkali goes into the water.
    rows.push_back({"water", grams(before.water_grams, scales.lye.step),
                    grams(after.water_grams, scales.lye.step)});
    for (std::size_t i = 0; i < after.alkali.size() && i < before.alkali.size(); ++i) {
      rows.push_back({core::name(after.alkali[i].alkali),
                      lye_grams(before.alkali[i].grams, scales.lye.step),
                      lye_grams(after.alkali[i].grams, scales.lye.step)});
    }
    rows.push_back({"superfat", percent(before.superfat), percent(after.superfat)});
    rows.push_back({"at worst", percent(before.band.low), percent(after.band.low)});
    screen_.heading("LYE AND WATER", "the old amounts do not suit the new oils");
    screen_.table("lrr", rows);
  }

  void bench() {
    screen_.heading("AT THE BENCH");
    std::vector<std::vector<std::string>> rows = {{"", "old", "new", "", ""}};
    for (const auto& line : result_.bench) {
      rows.push_back({line.what, fmt::format("{:.1f}", line.before),
                      fmt::format("{:.1f}", line.after), line.unit, line.says});
    }
    screen_.table("lrrll", rows);
  }

  void price_of_feel() {
    if (!result_.prices) return;
    const auto& prices = *result_.prices;
    screen_.heading("THE PRICE OF FEEL", "from the nearest to the cheapest");
    if (!prices.why_not.empty()) {
      screen_.sentence(prices.why_not);
      return;
    }
    std::vector<std::vector<std::string>> rows = {
        {"", "saved, a bar", "hand", "lather", "skin", "blend"}};
    for (const auto& point : prices.points) {
      rows.push_back(
          {fmt::format("{}", rows.size()),
           money(point.saved_per_bar, job_.blend.candidates.currency),
           fmt::format("{:.1f}", point.gap.parts[0]), fmt::format("{:.1f}", point.gap.parts[1]),
           fmt::format("{:.1f}", point.gap.parts[2]),
           blend_words(job_.blend.candidates.oils, point.steps, found_.formulation.problem.steps)});
    }
    Chart chart{"The price of feel",
                "saved, " + job_.blend.candidates.currency + " per bar",
                "feel, steps from the old bar",
                {},
                {{ChartMark::Shape::square, "the old bar", 0, 0}}};
    for (const auto& point : prices.points) {
      chart.points.emplace_back(point.saved_per_bar, point.gap.total);
    }
    screen_.chart(chart);
    screen_.table("lrrrrl", rows);
    screen_.sentence(
        "Steps away from the old bar: dry in the hand, the lather, the skin after; 1 step is what "
        "is just noticed.");
    screen_.sentence(prices.proved
                         ? "Each is proved: no blend that saves as much is nearer in feel."
                         : "Not every point was proved in the time given.");
  }

  void test_first() {
    if (!result_.side_by_side) return;
    const auto& both = *result_.side_by_side;
    screen_.heading("TEST FIRST", "two small pours, side by side");
    if (!both.after || !both.before) {
      screen_.sentence(both.refusal);
      return;
    }
    const core::Scales scales = recipe::scales(job_.brief.scale);
    std::vector<std::vector<std::string>> rows = {{"", "old", "new"}};
    const auto weight = [&](const core::Recipe& recipe, const std::string& oil) -> std::string {
      for (const auto& line : recipe.oils) {
        if (line.name == oil) return grams(line.grams, scales.oils.step);
      }
      return "-";
    };
    for (const auto& line : result_.lines) {
      rows.push_back({line.oil, weight(*both.before, line.oil), weight(*both.after, line.oil)});
    }
    for (std::size_t i = 0; i < both.after->alkali.size(); ++i) {
      rows.push_back({core::name(both.after->alkali[i].alkali),
                      lye_grams(both.before->alkali[i].grams, scales.lye.step),
                      lye_grams(both.after->alkali[i].grams, scales.lye.step)});
    }
    rows.push_back({"water", grams(both.before->water_grams, scales.lye.step),
                    grams(both.after->water_grams, scales.lye.step)});
    screen_.table("lrr", rows);
    screen_.sentence(
        "Same mould, same scent, same day; note trace and cutting of both. After the cure, let "
        "somebody wash with one on each hand without knowing which is which.");
  }

 private:
  // Oils of the old or the new bar without a price.
  std::vector<std::string> unpriced() const {
    std::vector<std::string> out;
    const auto& oils = job_.blend.candidates.oils;
    for (std::size_t i = 0; i < oils.size(); ++i) {
      if (!oils[i].price_per_kg && (job_.old_shares[i] > 0 || found_.shares[i] > 0)) {
        out.push_back(oils[i].oil.name);
      }
    }
    return out;
  }

  Screen& screen_;
  const jobs::SwapJob& job_;
  const jobs::BlendResult& found_;
  const jobs::SwapResult& result_;
};

void show_proof(Screen& screen, const jobs::BlendResult& found) {
  const formulate::Claim claim = formulate::claim_of(found.formulation, found.answer);
  if (!claim.proved) {
    screen.sentence("Keeps your limits. " + unproved_words(found.answer));
  } else if (claim.goal.empty()) {
    screen.sentence("Found and checked: this blend keeps your limits.");
  } else {
    screen.sentence("Proved: no blend of these oils, in these steps, keeps your limits and is " +
                    formulate::better_words(claim) + ".");
  }
  const std::string bought = formulate::bought_words(claim);
  if (!bought.empty()) screen.sentence(bought);
}

// For which lots what is kept, where the brief asks for more than typical ones.
void show_lots(Screen& screen, const jobs::SwapReport& report) {
  const auto& level = report.job->brief.sureness;
  const auto& asked = report.blend.result.formulation.asked;
  const auto sure = [](const formulate::Asked& one) {
    return !(one.level == targets::Sureness::typical);
  };
  const bool any = std::any_of(asked.begin(), asked.end(), sure);
  if (level == targets::Sureness::typical && !any) return;
  if (!any) {
    screen.sentence(
        "'sureness' changes nothing here: how the bar feels and where its fats are "
        "clear are kept for typical lots, and no other wish depends on the lots.");
    return;
  }
  const std::string lots = level == targets::Sureness::typical ? "as surely as each says"
                           : level == targets::Sureness::worst_case
                               ? "for every lot within the published ranges"
                               : fmt::format("for {:.4g} lots in 100", 100 * level.share);
  screen.sentence("Wishes count " + lots +
                  "; how the bar feels and where its fats are clear, for typical lots.");
}

void show_swap(Screen& screen, const jobs::SwapReport& report) {
  const jobs::SwapJob& job = *report.job;
  const bool asked = report.result.has_value();
  screen.title(job.brief.name, core::round_grams(job.old_recipe.oils_grams) + " of oils");
  screen.blank();
  show_lots(screen, report);
  if (!asked) {
    show_no(screen, report.blend);
    if (!report.nearest) return;
    screen.heading("THE NEAREST THERE IS", "feel and saving let go, all else kept");
  }
  const auto& found = asked ? report.blend.result : *report.nearest;
  SwapText text(screen, job, found, asked ? *report.result : *report.nearest_result);
  if (asked) show_proof(screen, found);
  if (asked) show_words(screen, given_way_words(report.blend.manners));
  text.outside();
  text.blends();
  text.felt();
  text.saved();
  text.lye();
  text.bench();
  if (asked) {
    show_comparison(screen, report.blend.properties, report.blend.compared.name);
    show_manners(screen, report.blend.manners);
    show_recipe(screen, found.recipe, recipe::scales(job.brief.scale));
  }
  text.price_of_feel();
  text.test_first();
  show_notes(screen, found.recipe, asked ? report.blend.cautions : std::vector<std::string>{});
  screen.heading("NEXT");
  if (!asked) {
    screen.sentence("Loosen one of the wishes above, or name more oils to use.");
    return;
  }
  const bool poured = report.result->side_by_side && report.result->side_by_side->after;
  screen.sentence(
      fmt::format("{}, then change the label and tell the assessor; only then the "
                  "recipe. To keep this recipe: add --save new-bar.yaml.",
                  poured ? "Pour the two test batches"
                         : "Pour a small batch of the new bar beside the old one"));
}

}  // namespace

std::string text_swap(const jobs::SwapReport& report, bool colour) {
  Screen screen(colour);
  show_swap(screen, report);
  return screen.text();
}

std::string page_swap(const jobs::SwapReport& report) {
  PageScreen screen;
  show_swap(screen, report);
  return screen.page();
}

}  // namespace barwright::app
