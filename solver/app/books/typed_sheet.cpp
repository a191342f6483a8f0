#include "solver/app/books/typed_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <set>

#include "core/units/quantity.hpp"
#include "oils/text/names.hpp"
#include "oils/text/yaml_text.hpp"
#include "solver/app/books/command_shelf_books.hpp"
#include "solver/app/sheet/sheet_job.hpp"
#include "solver/app/sheet/sheet_mark.hpp"
#include "solver/batch/batch_clock.hpp"
#include "solver/books/on_sheet.hpp"

namespace barwright::app {
namespace {

using books::Typed;

std::vector<Typed> behind(const std::vector<std::string>& texts, const std::string& option) {
  std::vector<Typed> out;
  for (const auto& text : texts) {
    const auto [what, said] = split_pair(text, option);
    out.push_back({what, said, option, {}});
  }
  return out;
}

void join(std::vector<Typed>& all, std::vector<Typed> more) {
  for (auto& each : more) all.push_back(std::move(each));
}

/// A wrong line of a file is an error of that file; behind an option it is one of usage.
[[noreturn]] void wrong(const Typed& typed, const std::string& message) {
  if (typed.place.line > 0)
    books::refuse(typed, message, "Correct it, or take it out: nothing was recorded.");
  throw UsageError{typed.option + ": " + message};
}

double grams_of(const Typed& typed) {
  try {
    const double grams = core::to_grams(core::parse_quantity(typed.said));
    if (!(grams >= 0)) wrong(typed, fmt::format("'{}' is below zero.", typed.said));
    return grams;
  } catch (const core::UnitError& error) {
    wrong(typed, fmt::format("{}. {}", error.what(), error.remedy()));
  }
}

std::pair<std::string, std::string> part_and_name(const std::string& text) {
  const std::size_t slash = text.find('/');
  if (slash == std::string::npos) return {"", text};
  return {text.substr(0, slash), text.substr(slash + 1)};
}

/// Weighs a line of the books anew: what is poured and cured follows.
void weigh(books::MakePlan& plan, const books::OnSheet::Of& of, double grams) {
  books::PlanPart& in = plan.parts.at(of.part);
  books::PlanLine& line = in.lines.at(of.line);
  const double before = in.poured;
  in.poured += grams - line.grams;
  in.cured *= in.poured / before;
  line.grams = grams;
}

/// The lines of the sheet, or of a recipe those of the books, one by one.
std::vector<books::OnSheet> lines_of(const books::MakePlan& plan) {
  std::vector<books::OnSheet> out = plan.on_sheet;
  for (std::size_t p = 0; p < plan.parts.size(); ++p) {
    for (std::size_t i = 0; i < plan.parts[p].lines.size(); ++i) {
      const auto& line = plan.parts[p].lines[i];
      const bool there = std::any_of(out.begin(), out.end(), [&](const books::OnSheet& each) {
        return each.part == plan.parts[p].name && each.what == line.what;
      });
      if (!there) out.push_back({plan.parts[p].name, line.what, line.grams, {{p, i, 1}}, false});
    }
  }
  return out;
}

/// Returns the line that is meant: one of the sheet before one of the books alone.
const books::OnSheet& meant(const std::vector<books::OnSheet>& lines, std::size_t of_sheet,
                            const Typed& typed, const oils::Library& library) {
  const auto [part, name] = part_and_name(typed.what);
  const oils::Oil* oil = library.find(name);
  const auto named = [&, part = part, name = name](const books::OnSheet& line) {
    return (part.empty() || part == line.part) &&
           (line.what == name || line.what == oils::own_name(name) ||
            (oil != nullptr && line.what == oil->name));
  };
  const auto none = lines.end();
  const auto pick = [&](auto from, auto to) {
    const auto first = std::find_if(from, to, named);
    if (first == to) return none;
    if (std::find_if(first + 1, to, named) != to)
      wrong(typed, fmt::format("'{}' stands in several parts: write \"{}/{}=...\".", typed.what,
                               first->part, typed.what));
    return first;
  };
  const auto sheet_end = lines.begin() + static_cast<std::ptrdiff_t>(of_sheet);
  auto found = pick(lines.begin(), sheet_end);
  if (found == none) found = pick(sheet_end, lines.end());
  if (found != none) return *found;
  std::string known;
  for (const auto& line : lines) known += fmt::format("\n  {}/{}", line.part, line.what);
  wrong(typed, fmt::format("'{}' is no line of this batch. Its lines are:{}", typed.what, known));
}

std::string brief_step(const std::string& what) {
  std::string out = what.substr(0, what.find_first_of(":;,("));
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

bool in_plan(const books::MakePlan& plan, const std::string& part) {
  return std::any_of(plan.parts.begin(), plan.parts.end(),
                     [&](const books::PlanPart& each) { return each.name == part; });
}

/// Returns the part a box is of, and the box. Errors: a part there is not.
std::pair<std::string, std::string> part_of_box(const Typed& typed, const books::MakePlan& plan) {
  auto [part, box] = part_and_name(typed.what);
  std::vector<std::string> known;
  for (const auto& each : plan.parts) known.push_back(each.name);
  if (part.empty()) return {known.front(), box};
  if (std::find(known.begin(), known.end(), part) == known.end())
    books::refuse(typed, fmt::format("there is no part '{}'", part),
                  oils::yaml::nearest_and_known(part, known));
  return {part, box};
}

/// The batch as its sheet was made: with what is on the shelf, and not kept for other batches.
batch::BatchPlan batch_of(const books::MakePlan& plan, const oils::Books& books) {
  return load_batch(plan.file, books.shelf().library, books.free_shelf(plan.name));
}

}  // namespace

books::Written typed_sheet(const TypedOptions& options) {
  books::Written out;
  if (!options.written.empty()) out = books::read_written(options.written);
  join(out.weighed, behind(options.weighed, "--weighed"));
  join(out.lots, behind(options.lots, "--lot"));
  join(out.steps, behind(options.steps, "--step"));
  join(out.happened, behind(options.happened, "--happened"));
  out.notes.insert(out.notes.end(), options.notes.begin(), options.notes.end());
  out.defects.insert(out.defects.end(), options.defects.begin(), options.defects.end());
  return out;
}

void take_weights(books::MakePlan& plan, const std::vector<Typed>& typed,
                  const oils::Library& library) {
  const auto lines = lines_of(plan);
  std::set<std::string> seen;
  for (const Typed& each : typed) {
    const books::OnSheet& line = meant(lines, plan.on_sheet.size(), each, library);
    if (!seen.insert(line.part + "/" + line.what).second)
      wrong(each, fmt::format("'{}' is typed in twice.", each.what));
    const double grams = grams_of(each);
    for (const auto& of : line.of) {
      const double now = plan.parts[of.part].lines[of.line].grams;
      weigh(plan, of,
            line.in_proportion ? (line.grams > 0 ? now * grams / line.grams : grams)
                               : std::max(0.0, now + of.share * (grams - line.grams)));
    }
  }
}

std::map<std::string, std::string> take_lots(const books::MakePlan& plan,
                                             const std::vector<Typed>& typed,
                                             const oils::Shelf& shelf,
                                             std::vector<std::string>& notes) {
  std::map<std::string, std::string> out;
  const auto lines = lines_of(plan);
  const auto shelf_name = [&](const std::string& what) {
    return shelf.name_of(what).value_or(oils::own_name(what));
  };
  const auto in_plan = [&](const std::string& what) {
    return std::any_of(lines.begin(), lines.end(),
                       [&](const books::OnSheet& line) { return shelf_name(line.what) == what; });
  };
  for (const Typed& each : typed) {
    const std::string bare = shelf_name(each.what);
    std::string key;
    if (each.what.find('/') == std::string::npos && in_plan(bare)) {
      key = bare;
    } else {
      const auto& line = meant(lines, plan.on_sheet.size(), each, shelf.library);
      if (line.of.size() == 1) {
        const books::PlanPart& part = plan.parts[line.of.front().part];
        key = part.name + "/" + shelf_name(part.lines[line.of.front().line].what);
      } else if (line.in_proportion && line.part == books::kLyePot) {
        key = shelf_name(line.what);
      } else {
        notes.push_back(fmt::format("lot of the {}: {}", line.what, each.said));
        continue;
      }
    }
    const auto [at, fresh] = out.emplace(key, each.said);
    if (!fresh && at->second != each.said)
      notes.push_back(fmt::format("lot of {} besides: {}", each.what, each.said));
  }
  return out;
}

std::vector<std::string> written_notes(const books::Written& written, const books::MakePlan& plan,
                                       const oils::Books& books) {
  std::vector<std::string> out;
  if (!written.steps.empty()) {
    const auto batch = batch_of(plan, books);
    const auto clock = batch::clock_of(batch, batch::times_of(batch));
    std::set<std::size_t> seen;
    for (const Typed& step : written.steps) {
      std::size_t number = 0;
      const char* end = step.what.data() + step.what.size();
      const auto read = std::from_chars(step.what.data(), end, number);
      if (read.ec != std::errc() || read.ptr != end || number < 1 || number > clock.size())
        books::refuse(step, fmt::format("'{}' is no step of this sheet", step.what),
                      fmt::format("Its steps are numbered 1 to {}.", clock.size()));
      if (!seen.insert(number).second)
        books::refuse(step, fmt::format("step {} is typed in twice", number),
                      "Take one of them out.");
      const auto& done = clock[number - 1];
      out.push_back(
          fmt::format("step {}, {}{}: {}", number,
                      !in_plan(plan, done.part) || plan.parts.size() < 2 ? "" : done.part + ", ",
                      brief_step(done.what), books::moment_of(step).words()));
    }
  }
  std::set<std::pair<std::string, std::string>> boxes;
  for (const Typed& each : written.happened) {
    const auto [part, box] = part_of_box(each, plan);
    const std::string words = books::happened_words(each, box);
    if (!boxes.emplace(part, oils::yaml::folded(box)).second)
      books::refuse(each, fmt::format("'{}' is typed in twice", each.what),
                    "Take one of them out.");
    out.push_back((plan.parts.size() > 1 ? part + ": " : "") + words);
  }
  if (!written.not_ticked.empty()) {
    std::string names;
    for (const auto& name : written.not_ticked) names += (names.empty() ? "" : ", ") + name;
    out.push_back("not ticked on the sheet: " + names);
  }
  return out;
}

BySheet by_sheet(const books::Written& written, const books::MakePlan& plan,
                 const oils::Books& books) {
  BySheet out;
  const std::string own =
      plan.name.empty() ? std::filesystem::path(plan.file).stem().string() : plan.name;
  if (!written.batch.empty() && oils::batch_word(written.batch) != oils::batch_word(own))
    throw core::InputError(
        {}, fmt::format("what was written is of '{}', this file is of '{}'", written.batch, own),
        "Name the file the sheet was printed from.");
  const std::string name = std::filesystem::path(plan.file).filename().string();
  const oils::SheetGiven* open = books.ledger().open_sheet(name);
  const bool same = open != nullptr && (written.sheet.empty() || written.sheet == open->mark);
  const std::string mark = !written.sheet.empty() ? written.sheet : same ? open->mark : "";
  if (mark.empty()) return out;
  const std::string called =
      same ? fmt::format("sheet {}, {}", open->number, mark) : "sheet " + mark;
  out.note = "by " + called;
  const auto batch = batch_of(plan, books);
  const std::string now = sheet_mark(batch, batch::times_of(batch));
  if (now != mark)
    out.changed = fmt::format(
        "The recipe changed since {} was given out: it is {} now (another certificate on the "
        "shelf counts too). What is not typed in is recorded as the recipe has it today: take the "
        "record back ('--undo') if the old one was weighed.",
        called, now);
  return out;
}

}  // namespace barwright::app
