#include "solver/books/on_sheet.hpp"

#include <algorithm>

namespace barwright::books {
namespace {

class Lines {
 public:
  Lines(const batch::BatchPlan& batch, const MakePlan& plan) : batch_(batch), plan_(plan) {}

  std::vector<OnSheet> run() && {
    for (std::size_t p = 0; p < batch_.parts.size(); ++p) part(p);
    if (batch_.shared) pot(*batch_.shared);
    return std::move(out_);
  }

 private:
  using Of = OnSheet::Of;

  /// Adds a line of the sheet that is one line of the books, or a share of one.
  void add(std::size_t p, const std::string& name, double grams, const std::string& in_books,
           PlanKind kind, const std::string& lot = {}) {
    OnSheet line{plan_.parts[p].name, name, grams, {}, false};
    if (const auto at = find(p, in_books, kind, lot)) line.of.push_back({p, *at, 1});
    if (!line.of.empty()) out_.push_back(std::move(line));
  }

  std::optional<std::size_t> find(std::size_t p, const std::string& name, PlanKind kind,
                                  const std::string& lot = {}) const {
    const auto& lines = plan_.parts[p].lines;
    const auto at = std::find_if(lines.begin(), lines.end(), [&](const PlanLine& line) {
      return line.kind == kind && line.what == name && (lot.empty() || line.lot == lot);
    });
    if (at == lines.end()) return std::nullopt;
    return static_cast<std::size_t>(at - lines.begin());
  }

  void fat(std::size_t p, const core::FatLine& fat) {
    for (const auto& premix : batch_.file.premixes) {
      if (premix.name != fat.name) continue;
      OnSheet line{plan_.parts[p].name, fat.name, fat.grams, {}, false};
      for (const auto& one : premix.blend.oils) {
        if (const auto at = find(p, one.oil.name, PlanKind::oil))
          line.of.push_back({p, *at, one.share});
      }
      out_.push_back(std::move(line));
      return;
    }
    const std::string mark = " (wets colours)";
    const bool wets = fat.name.ends_with(mark);
    const std::string own = wets ? fat.name.substr(0, fat.name.size() - mark.size()) : fat.name;
    add(p, fat.name, fat.grams, own, PlanKind::oil);
  }

  void part(std::size_t p) {
    const batch::PartPlan& part = batch_.parts[p];
    const core::Recipe& recipe = part.recipe;
    for (const auto* fats : {&recipe.oils, &recipe.other_fats}) {
      for (const auto& each : *fats) fat(p, each);
    }
    if (!batch_.shared) {
      for (const PlanLine& line : plan_.parts[p].lines) {
        if (line.kind == PlanKind::alkali || line.kind == PlanKind::water)
          add(p, line.what, line.grams, line.what, line.kind);
      }
    }
    for (const auto* lines : {&recipe.acids, &recipe.liquids}) {
      for (const auto& each : *lines) add(p, each.name, each.grams, each.name, PlanKind::other);
    }
    for (const auto* lines : {&part.into_lye, &part.additions, &part.on_top}) {
      for (const auto& each : *lines) add(p, each.name, each.grams, each.name, PlanKind::other);
    }
    for (const auto& colour : part.colours) {
      for (const auto& each : colour.with)
        add(p, stuff_on_sheet(each.name, colour.name), each.grams, each.name, PlanKind::other);
    }
    for (const auto& scent : part.scents) {
      for (const auto& portion : scent.portions)
        add(p, scent_on_sheet(scent.scent->name, portion.colour), portion.grams, scent.scent->name,
            PlanKind::other);
    }
    for (const auto& embed : part.part->embeds)
      add(p, embed.name, embed.grams, embed.name, PlanKind::other, embed.lot);
  }

  /// The one lye: what goes into it stands for every part's, its portions each for one part's.
  void pot(const core::SharedLye& lye) {
    const auto all = [&](const std::string& name, double grams, PlanKind kind) {
      OnSheet line{kLyePot, name, grams, {}, true};
      for (std::size_t p = 0; p < plan_.parts.size(); ++p) {
        if (const auto at = find(p, name, kind)) line.of.push_back({p, *at, 1});
      }
      out_.push_back(std::move(line));
    };
    all("water", lye.water_grams, PlanKind::water);
    for (const auto& line : lye.alkali) all(core::name(line.alkali), line.grams, PlanKind::alkali);
    for (const auto& portion : lye.portions) {
      OnSheet line{kPortion, portion.part, portion.solution_grams, {}, true};
      for (std::size_t p = 0; p < plan_.parts.size(); ++p) {
        if (plan_.parts[p].name != portion.part) continue;
        for (std::size_t i = 0; i < plan_.parts[p].lines.size(); ++i) {
          const PlanKind kind = plan_.parts[p].lines[i].kind;
          if (kind == PlanKind::alkali || kind == PlanKind::water) line.of.push_back({p, i, 1});
        }
      }
      out_.push_back(std::move(line));
    }
  }

  const batch::BatchPlan& batch_;
  const MakePlan& plan_;
  std::vector<OnSheet> out_;
};

}  // namespace

std::vector<OnSheet> lines_on_sheet(const batch::BatchPlan& batch, const MakePlan& plan) {
  return Lines(batch, plan).run();
}

std::string scent_on_sheet(const std::string& scent, const std::string& colour) {
  return scent + (colour.empty() ? "" : " in " + colour);
}

std::string stuff_on_sheet(const std::string& stuff, const std::string& colour) {
  return stuff + " (" + colour + ")";
}

}  // namespace barwright::books
