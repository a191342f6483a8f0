#include "solver/app/oils/text_oil.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "solver/app/print/screen.hpp"
#include "solver/jobs/report/report_blend.hpp"
#include "targets/model/difference.hpp"
#include "targets/model/words.hpp"
#include "targets/model/yardstick.hpp"

namespace barwright::app {
namespace {

std::string joined(const auto& words) {
  std::string out;
  for (const auto& word : words) out += (out.empty() ? "" : ", ") + std::string(word);
  return out;
}

std::string range(const core::Span& span) {
  return span.low == span.high ? fmt::format("{:.4g}", span.low)
                               : fmt::format("{:.4g} to {:.4g}", span.low, span.high);
}

void add_figure(std::vector<std::vector<std::string>>& rows, std::set<std::string>& sources,
                const std::string& name, const std::string& unit, const core::Figure& figure) {
  sources.insert(figure.source);
  if (!figure.range_source.empty()) sources.insert(figure.range_source);
  rows.push_back({name, fmt::format("{:.4g}", figure.span.typical), range(figure.span), unit,
                  oils::provenance(figure)});
}

void show_against_plain_bars(Screen& screen, const oils::Oil& oil, const oils::Library& library) {
  const auto model = targets::PropertyModel::embedded();
  const auto& draws = model.readings();
  const targets::BarSettings settings;
  const auto own = targets::composition(oil);
  screen.heading(fmt::format("A BAR OF {} ALONE", oil.name), "at 5 % superfat, after six weeks");
  for (const char* name : {"all-olive", "all-coconut"}) {
    const auto* yardstick = targets::find_yardstick(name);
    if (yardstick == nullptr) continue;
    const auto other = targets::composition(*yardstick, library);
    std::vector<std::string> sure;
    std::vector<std::string> likely;
    for (const auto property : targets::all_properties()) {
      if (property == targets::Property::titre) continue;
      const auto diff =
          targets::difference(model, draws, property, own, settings, other, yardstick->settings);
      const auto& words = targets::words(property);
      if (std::abs(diff.value) < words.notice) continue;
      const std::string text = diff.value > 0 ? words.more : words.less;
      if (diff.sure) {
        sure.push_back(text);
      } else if (diff.low * diff.high > 0) {
        likely.push_back(text);
      }
    }
    std::string sentence = fmt::format("Beside {}: ", name);
    if (sure.empty() && likely.empty()) sentence += "no difference to notice";
    sentence += joined(sure);
    if (!likely.empty()) sentence += (sure.empty() ? "likely " : "; likely ") + joined(likely);
    screen.sentence(sentence + ".");
  }
}

}  // namespace

std::string text_oil(const oils::Oil& oil, const oils::Library& library, bool colour) {
  Screen screen(colour);
  screen.title(oil.name, joined(oil.tags));
  if (!oil.synonyms.empty()) screen.sentence("Also: " + joined(oil.synonyms) + ".");
  screen.sentence(fmt::format("INCI {}; once saponified {}{}.", oil.inci, oil.saponified_name,
                              oil.saponified_name_by_analogy
                                  ? " (formed by analogy: check before you print a label)"
                                  : ""));
  if (oil.solid_at_25c) screen.sentence("Solid at 25 C.");
  if (!oil.note.empty()) screen.sentence(oil.note);

  std::set<std::string> sources;
  std::vector<std::vector<std::string>> rows;
  rows.push_back({"", "typical", "range", "", "from"});
  add_figure(rows, sources, "saponification value", "mg KOH/g", oil.saponification_value);
  if (oil.acid_value) add_figure(rows, sources, "acid value", "mg KOH/g", *oil.acid_value);
  add_figure(rows, sources, "iodine value", "g I2/100 g", oil.iodine_value);
  add_figure(rows, sources, "unsaponifiables", "%", oil.unsaponifiable);
  if (oil.titre) add_figure(rows, sources, "titre", "C", *oil.titre);
  if (oil.density) {
    add_figure(rows, sources, fmt::format("density at {:.3g} C", oil.density_at_celsius), "g/mL",
               *oil.density);
  }
  if (oil.usual_most) add_figure(rows, sources, "usual most share", "% of oils", *oil.usual_most);
  screen.heading("FIGURES");
  screen.table("lrlll", rows);
  if (oil.lye_figure_unread()) screen.sentence(oil.lye_caution(), "!");

  rows.clear();
  for (const auto& facts : core::acid_facts()) {
    const auto& figure = oil.acids[static_cast<std::size_t>(facts.acid)];
    if (!figure) continue;
    add_figure(rows, sources, fmt::format("{} {}", facts.key, facts.name), "", *figure);
  }
  if (!rows.empty()) {
    screen.heading("FATTY ACIDS", "% of the fatty acids");
    screen.table("lrlll", rows);
  }
  show_against_plain_bars(screen, oil, library);
  screen.heading("SOURCES");
  for (const auto& key : sources) {
    const auto found = library.sources().find(key);
    if (found != library.sources().end()) screen.sentence(found->second.work, key + ":");
  }
  return screen.text();
}

std::vector<OilBeside> oils_beside(const oils::Library& library, const oils::Oil& than,
                                   targets::Property property, bool more) {
  const auto model = targets::PropertyModel::embedded();
  const auto& draws = model.readings();
  const targets::BarSettings settings;
  const auto known = targets::composition(than);
  std::vector<OilBeside> out;
  for (const auto& oil : library.oils()) {
    if (oil.name == than.name || oil.form != oils::Form::triglyceride) continue;
    const auto diff = targets::difference(model, draws, property, targets::composition(oil),
                                          settings, known, settings);
    const bool right_way = more ? diff.value > 0 && diff.low > 0 : diff.value < 0 && diff.high < 0;
    if (right_way && std::abs(diff.value) >= targets::noticeable(property)) {
      out.push_back({oil.name, diff});
    }
  }
  std::stable_sort(out.begin(), out.end(), [](const OilBeside& a, const OilBeside& b) {
    if (a.against.sure != b.against.sure) return a.against.sure;
    return std::abs(a.against.value) > std::abs(b.against.value);
  });
  return out;
}

std::string text_oil_names(const std::vector<const oils::Oil*>& oils, bool colour) {
  Screen screen(colour);
  std::map<std::string, std::vector<std::string>> kinds;
  for (const auto* oil : oils) {
    const std::string kind = oil->form == oils::Form::wax         ? "waxes"
                             : oil->form == oils::Form::free_acid ? "free fatty acids"
                             : oil->has_tag("animal")             ? "animal fats"
                             : oil->has_tag("butter")             ? "butters"
                             : oil->solid_at_25c                  ? "solid fats"
                                                                  : "liquid oils";
    kinds[kind].push_back(oil->name);
  }
  screen.title(fmt::format("{} oils", oils.size()));
  for (const auto& [kind, names] : kinds) {
    screen.heading(kind);
    screen.sentence(joined(names) + ".");
  }
  screen.heading("NEXT");
  screen.sentence("One of them with its sources: barwright oils \"shea butter\".");
  return screen.text();
}

std::string text_record(const oils::RecordReport& report, const std::string& file, bool colour) {
  Screen screen(colour);
  screen.title(fmt::format("{}: {}", file, report.oil.name));
  if (!report.like.empty())
    screen.sentence(fmt::format("Compared with {} of the library.", report.like));
  if (report.findings.empty()) {
    screen.sentence("Nothing to question: its figures agree with each other and with print.");
  }
  for (const auto& finding : report.findings) {
    const char* mark = finding.weight == oils::Finding::Weight::fault      ? "FAULT"
                       : finding.weight == oils::Finding::Weight::question ? "ASK"
                                                                           : "-";
    screen.sentence(finding.text +
                        (finding.place.line > 0 ? fmt::format(" (line {})", finding.place.line)
                                                : std::string()) +
                        (finding.remedy.empty() ? "" : " " + finding.remedy),
                    mark);
  }
  screen.heading("NEXT");
  screen.sentence(report.whole
                      ? "Put the file into a folder and add --library FOLDER to any command."
                      : "It lacks what a whole record needs; as a certificate of a lot on the "
                        "shelf it can be used as it is.");
  return screen.text();
}

}  // namespace barwright::app
