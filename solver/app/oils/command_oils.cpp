#include "solver/app/oils/command_oils.hpp"

#include <fmt/format.h>

#include <memory>

#include "oils/records/certificate_reader.hpp"
#include "solver/app/blend/json_blend.hpp"
#include "solver/app/common_options.hpp"
#include "solver/app/exit_code.hpp"
#include "solver/app/json.hpp"
#include "solver/app/library.hpp"
#include "solver/app/oils/json_oil.hpp"
#include "solver/app/oils/text_oil.hpp"
#include "solver/app/print/screen.hpp"
#include "targets/model/words.hpp"

namespace barwright::app {
namespace {

// The questions that have an option of their own; any other property goes by --more or --less.
struct Question {
  const char* option;
  targets::Property property;
  bool more;
  const char* help;
};
constexpr Question kQuestions[] = {
    {"--firmer-than", targets::Property::hardness, true,
     "Oils whose bars are firmer than this one's"},
    {"--softer-than", targets::Property::hardness, false, "Oils whose bars are softer"},
    {"--foamier-than", targets::Property::lather, true, "Oils whose bars lather more"},
    {"--milder-than", targets::Property::mildness, true, "Oils whose bars are milder"},
    {"--kinder-than", targets::Property::conditioning, true, "Oils whose after-feel is kinder"},
    {"--keeps-longer-than", targets::Property::keeping, true, "Oils slower to turn rancid"},
    {"--lasts-longer-than", targets::Property::thrift, true, "Oils whose bars wear more slowly"},
};

struct OilsOptions {
  CommonOptions common;
  std::string name;
  std::string tag;
  std::string check;
  std::string more;
  std::string less;
  std::string than;
  std::string question[std::size(kQuestions)];
};

const oils::Oil& need(const oils::Library& library, const std::string& name) {
  const oils::Oil* oil = library.find(name);
  if (oil == nullptr) throw UsageError{library.remedy_for(name)};
  return *oil;
}

std::string text_beside(const std::vector<OilBeside>& found, const std::string& than,
                        targets::Property property, bool more) {
  Screen screen(colour_wanted());
  const auto& words = targets::words(property);
  screen.title(fmt::format("{} than {}", more ? words.more : words.less, than),
               "each as a bar of that oil alone");
  if (found.empty()) screen.sentence("None by more than the doubt.");
  std::string sure;
  std::string likely;
  for (const auto& oil : found)
    (oil.against.sure ? sure : likely) +=
        fmt::format("{} {}, ", oil.name, signed_points(oil.against.value));
  const auto show = [&](const char* heading, std::string names) {
    if (names.empty()) return;
    names.resize(names.size() - 2);
    screen.heading(heading, "points, the largest first");
    screen.sentence(names + ".");
  };
  show("SURE", sure);
  show("LIKELY", likely);
  screen.heading("NEXT");
  screen.sentence("One of them with its sources: barwright oils \"" +
                  (found.empty() ? than : found.front().name) + "\".");
  return screen.text();
}

std::string json_beside(const std::vector<OilBeside>& found, const std::string& than,
                        targets::Property property, bool more) {
  Json list = Json::array();
  for (const auto& oil : found) {
    list.push_back({{"oil", oil.name},
                    {"difference", oil.against.value},
                    {"low", oil.against.low},
                    {"high", oil.against.high},
                    {"sure", oil.against.sure}});
  }
  const Json object = {{"schema", kJsonSchema}, {"command", "oils"},
                       {"status", "found"},     {"property", targets::name(property)},
                       {"more", more},          {"than", than},
                       {"oils", list}};
  return object.dump(2) + "\n";
}

Outcome beside(const OilsOptions& options, const oils::Library& library, const std::string& than,
               targets::Property property, bool more) {
  const oils::Oil& known = need(library, than);
  const auto found = oils_beside(library, known, property, more);
  return {kFound,
          options.common.json ? json_beside(found, known.name, property, more)
                              : text_beside(found, known.name, property, more),
          {}};
}

Outcome names(const OilsOptions& options, const oils::Library& library) {
  std::vector<const oils::Oil*> list;
  if (options.tag.empty()) {
    for (const auto& oil : library.oils()) list.push_back(&oil);
  } else if (library.knows_tag(options.tag)) {
    list = library.with_tag(options.tag);
  } else {
    std::string known;
    for (const auto& [word, tag] : library.tags()) known += (known.empty() ? "" : ", ") + word;
    throw UsageError{
        fmt::format("--tag: '{}' is no tag we know. Known are: {}.", options.tag, known)};
  }
  if (!options.common.json) return {kFound, text_oil_names(list, colour_wanted()), {}};
  Json all = Json::array();
  Json synonyms = Json::object();
  for (const auto* oil : list) {
    all.push_back(oil->name);
    synonyms[oil->name] = Json(oil->synonyms);
  }
  const Json object = {{"schema", kJsonSchema},
                       {"command", "oils"},
                       {"status", "found"},
                       {"oils", all},
                       {"synonyms", synonyms}};
  return {kFound, object.dump(2) + "\n", {}};
}

// One question at a time: two at once would leave one unanswered in silence.
void check_one_question(const OilsOptions& options) {
  int asked = static_cast<int>(!options.check.empty()) + static_cast<int>(!options.more.empty()) +
              static_cast<int>(!options.less.empty()) + static_cast<int>(!options.name.empty()) +
              static_cast<int>(!options.tag.empty());
  for (const auto& question : options.question) asked += static_cast<int>(!question.empty());
  if (asked > 1)
    throw UsageError{"ask one thing at a time: a name, --tag, --check or one comparison"};
  if (!options.than.empty() && options.more.empty() && options.less.empty()) {
    throw UsageError{"--than goes with --more PROPERTY or --less PROPERTY"};
  }
}

Outcome answer(const OilsOptions& options) {
  check_one_question(options);
  const oils::Library library = load_library(options.common);
  if (!options.check.empty()) {
    const auto report = oils::check_record_file(options.check, library);
    return {kFound,
            options.common.json ? json_record(report)
                                : text_record(report, options.check, colour_wanted()),
            {}};
  }
  for (std::size_t q = 0; q < std::size(kQuestions); ++q) {
    if (!options.question[q].empty()) {
      return beside(options, library, options.question[q], kQuestions[q].property,
                    kQuestions[q].more);
    }
  }
  if (!options.more.empty() || !options.less.empty()) {
    const std::string& name = options.more.empty() ? options.less : options.more;
    const auto property = targets::find_property(name);
    if (!property) throw UsageError{fmt::format("'{}' is no property we know, see README", name)};
    if (options.than.empty()) throw UsageError{"say which oil to compare with: --than lard"};
    return beside(options, library, options.than, *property, options.less.empty());
  }
  if (options.name.empty()) return names(options, library);
  const oils::Oil& oil = need(library, options.name);
  return {kFound,
          options.common.json ? json_oil(oil, library) : text_oil(oil, library, colour_wanted()),
          {}};
}

}  // namespace

void add_oils(Command app, Action& action) {
  auto options = std::make_shared<OilsOptions>();
  Command command =
      app.add_command("oils", "Look up an oil and where its figures come from, or compare oils");
  command.value("name", options->name, "One oil, e.g. \"shea butter\"; none: all their names");
  command.value("--tag", options->tag, "Only oils with this tag, e.g. butter");
  for (std::size_t q = 0; q < std::size(kQuestions); ++q) {
    command.value(kQuestions[q].option, options->question[q], kQuestions[q].help);
  }
  command.value("--more", options->more, "Oils with more of this property, with --than");
  command.value("--less", options->less, "Oils with less of this property, with --than");
  command.value("--than", options->than, "The oil to compare with");
  command.value("--check", options->check,
                "Check your own record, typed from a supplier's certificate");
  add_common(command, options->common);
  command.footer(
      "Worked example: which oils make a firmer bar than lard, and how well is one of them known?\n"
      "  barwright oils --firmer-than lard\n"
      "  barwright oils \"sal butter\"");
  command.on_chosen([options, &action] { action = [options] { return answer(*options); }; });
}

}  // namespace barwright::app
