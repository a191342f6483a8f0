#include "solver/app/blend/quick_brief.hpp"

#include <fmt/format.h>

#include <cmath>

#include "core/units/quantity.hpp"
#include "oils/text/yaml_text.hpp"
#include "solver/app/program.hpp"
#include "targets/brief/brief.hpp"

namespace barwright::app {
namespace {

struct Part {
  std::string oil;
  double percent = 0;
};

std::vector<std::string> split(const std::string& text, char at) {
  std::vector<std::string> out;
  std::size_t start = 0;
  while (start <= text.size()) {
    const std::size_t end = std::min(text.find(at, start), text.size());
    out.push_back(oils::yaml::trimmed(std::string_view(text).substr(start, end - start)));
    start = end + 1;
  }
  return out;
}

double percent_of(const std::string& item, const std::string& text) {
  try {
    const core::Quantity share = core::parse_quantity(text);
    if ((share.unit.empty() || share.unit == "%") && share.value > 0 && share.value <= 100)
      return share.value;
  } catch (const core::UnitError&) {  // falls through
  }
  throw UsageError{fmt::format("--from: '{}' has no share. Write olive:40,coconut:30,...", item)};
}

std::vector<Part> parts_of(const std::string& from, const oils::Library& library) {
  std::vector<Part> out;
  double sum = 0;
  for (const auto& item : split(from, ',')) {
    const std::size_t colon = item.rfind(':');
    if (colon == std::string::npos || colon == 0)
      throw UsageError{fmt::format(
          "--from: '{}' is no oil with its share. Write olive:40,coconut:30,...", item)};
    const std::string name = oils::yaml::trimmed(std::string_view(item).substr(0, colon));
    const auto* oil = library.find(name);
    if (oil == nullptr)
      throw UsageError{fmt::format("--from '{}': ", name) + library.remedy_for(name)};
    for (const auto& other : out)
      if (other.oil == oil->name)
        throw UsageError{fmt::format("--from: {} stands there twice. Add the two together.", name)};
    out.push_back({oil->name, percent_of(item, item.substr(colon + 1))});
    sum += out.back().percent;
  }
  if (std::abs(sum - 100) > 1e-9)
    throw UsageError{
        fmt::format("--from: the shares total {:.10g} %, {:.10g} % {}. They must total "
                    "100 %.",
                    sum, std::abs(sum - 100), sum > 100 ? "too much" : "short")};
  return out;
}

bool is_shelf(const std::string& word) { return word.ends_with(".yaml") || word.ends_with(".yml"); }

std::string places(const QuickWish& wish, const oils::Library& library) {
  std::string from;
  const auto add = [&](const std::string& word) { from += (from.empty() ? "" : ", ") + word; };
  if (wish.using_oils.empty()) add("library");
  for (const auto& word : wish.using_oils) {
    if (is_shelf(word) || word == "shelf") {
      add("shelf");
    } else if (word == "library") {
      add("library");
    } else {
      const auto* oil = library.find(word);
      if (oil == nullptr)
        throw UsageError{fmt::format("--using '{}': ", word) + library.remedy_for(word)};
      add(oils::yaml::bare_or_quoted(oil->name));
    }
  }
  return from;
}

}  // namespace

std::string shelf_of(const QuickWish& wish) {
  std::string out;
  for (const auto& word : wish.using_oils) {
    if (!is_shelf(word)) continue;
    if (!out.empty()) throw UsageError{"--using: one shelf file is enough; put both in one."};
    out = word;
  }
  return out;
}

std::string quick_brief(const QuickWish& wish, const oils::Library& library) {
  if (wish.want.empty())
    throw UsageError{"--from needs --want: what the bar should be, e.g. 'harder, lather no less'"};
  const std::vector<Part> parts = parts_of(wish.from, library);
  std::string out =
      "# What was asked on the command line; change it and run it again with\n"
      "#   barwright blend THIS-FILE\n";
  out += fmt::format("brief: {}\noils-from: [{}]\n", oils::yaml::quoted(wish.want),
                     places(wish, library));
  if (const std::string shelf = shelf_of(wish); !shelf.empty())
    out += fmt::format("shelf: {}\n", oils::yaml::quoted(shelf));
  std::string blend;
  for (const auto& part : parts)
    blend += fmt::format("{}{}: {:.10g} %", blend.empty() ? "" : ", ",
                         oils::yaml::bare_or_quoted(part.oil), part.percent);
  out += fmt::format("compared-with: {{name: your bar, blend: {{{}}}}}\n", blend);
  out += fmt::format("want: {}\n", oils::yaml::quoted(wish.want));
  // A goal of the maker's own stands alone; else the bar changes no more than it must.
  const auto brief = targets::read_brief_text(out, "--want", "", library);
  if (brief.goals.empty()) out += "best: nearest in feel\n";
  return out + "make: {oils: 1000 g}\nscale: {oils: 1 g, lye: 0.1 g}\n";
}

}  // namespace barwright::app
