#include "solver/books/make_plan_batch.hpp"

#include <algorithm>

#include "core/units/error.hpp"
#include "solver/batch/batch_times.hpp"
#include "solver/books/on_sheet.hpp"
#include "solver/books/plan_part.hpp"
#include "solver/recipe/recipe_request.hpp"
#include "targets/files/batch_file.hpp"

namespace barwright::books {
namespace {

/// The sheet marks what a line is for behind its name; the books know things by name alone.
std::string plain_name(const std::string& name, const targets::Part& part) {
  std::vector<std::string> marks = {" (wets colours)"};
  for (const auto& colour : part.colours) marks.push_back(" (" + colour.name + ")");
  for (const auto& mark : marks) {
    if (name.ends_with(mark)) return name.substr(0, name.size() - mark.size());
  }
  return name;
}

/// A premixed oil stands on no shelf: what was mixed does.
std::vector<PlanLine> without_premix(const PlanLine& line,
                                     const std::vector<targets::Premix>& premixes,
                                     const oils::Library& library, const oils::Shelf* shelf,
                                     const core::Scales& scales) {
  for (const auto& premix : premixes) {
    if (premix.name != line.what) continue;
    std::vector<PlanLine> out;
    for (const auto& part : premix.blend.oils) {
      PlanLine piece = line;
      piece.what = part.oil.name;
      piece.grams = line.grams * part.share;
      piece.fat =
          recipe::pot_fat({oil_as_held(part.oil.name, piece.grams, library, shelf), piece.grams});
      piece.fat.error = part.share * scales.oils.error_grams();  // weighed once, as the mix
      out.push_back(std::move(piece));
    }
    return out;
  }
  return {line};
}

PlanLine other(const std::string& what, double grams, const std::string& lot = {}) {
  PlanLine out;
  out.what = what;
  out.grams = grams;
  out.lot = lot;
  return out;
}

PlanPart part_of(const batch::PartPlan& planned, const batch::BatchPlan& batch,
                 const oils::Shelf* shelf) {
  PlanPart weighed =
      plan_part(planned.part->name, planned.request, planned.recipe, planned.pot, batch.scales);
  PlanPart out = weighed;
  out.lines.clear();
  for (PlanLine& line : weighed.lines) {
    line.what = plain_name(line.what, *planned.part);
    if (line.kind == PlanKind::oil) {
      for (auto& piece :
           without_premix(line, batch.file.premixes, batch.library, shelf, batch.scales))
        out.lines.push_back(std::move(piece));
      continue;
    }
    for (const auto& scent : planned.part->scents) {
      if (scent.name == line.what) line.role = core::Role::fragrance;
    }
    out.lines.push_back(std::move(line));
  }
  for (const auto& top : planned.on_top) {
    out.lines.push_back(other(top.name, top.grams));
    out.poured += top.grams;
    out.cured += top.grams;
  }
  for (const auto& embed : planned.part->embeds) {
    out.lines.push_back(other(embed.name, embed.grams, embed.lot));
    out.poured += embed.grams;
    out.cured += embed.grams;
  }
  // One thing weighed twice into a part (a colour of two swirls) is one line of the books.
  std::vector<PlanLine> once;
  for (PlanLine& line : out.lines) {
    const auto same = std::find_if(once.begin(), once.end(), [&](const PlanLine& each) {
      return each.what == line.what && each.kind == line.kind && each.lot == line.lot;
    });
    if (same == once.end()) {
      once.push_back(std::move(line));
      continue;
    }
    same->grams += line.grams;
    if (line.kind != PlanKind::oil) continue;
    const double one = batch.scales.oils.error_grams();  // each weighing may be off
    same->fat.error = same->fat.error.value_or(one) + line.fat.error.value_or(one);
  }
  out.lines = std::move(once);
  return out;
}

}  // namespace

MakePlan batch_plan(const std::string& path, const oils::Library& library, const oils::Shelf* shelf,
                    int bars) {
  const batch::BatchPlan batch =
      batch::plan_batch(targets::read_batch(path, library), library,
                        shelf != nullptr ? std::optional(*shelf) : std::nullopt);
  MakePlan out;
  out.file = path;
  out.name = batch.file.name;
  if (batch.file.bench_date) out.bench_date = core::find_day(batch.file.bench_date->text());
  out.cure_hours = batch::cure_hours(batch, batch::times_of(batch));
  if (batch.file.shelf) out.shelf_file = batch.file.shelf->path;
  out.packed_here = batch.file.packed_in.has_value();
  out.packed_in = batch.file.packed_in.value_or(targets::PackedIn{});
  out.bars = bars > 0 ? bars : batch.bars;
  for (const auto& part : batch.parts) out.parts.push_back(part_of(part, batch, shelf));
  out.on_sheet = lines_on_sheet(batch, out);
  return out;
}

}  // namespace barwright::books
