#include "tests/fuzz/readers.hpp"

#include <cstdlib>
#include <stdexcept>

#include "core/units/error.hpp"
#include "core/units/plain_text.hpp"
#include "core/units/quantity.hpp"
#include "oils/books/ledger.hpp"
#include "oils/books/list_columns.hpp"
#include "oils/books/price_list.hpp"
#include "oils/books/shelf.hpp"
#include "oils/books/shelf_reader.hpp"
#include "oils/books/shelf_writer.hpp"
#include "oils/books/stock_list.hpp"
#include "oils/files/safe_file.hpp"
#include "oils/records/certificate_reader.hpp"
#include "oils/records/lots_file.hpp"
#include "oils/records/record_reader.hpp"
#include "oils/text/yaml_edit.hpp"
#include "oils/text/yaml_text.hpp"
#include "solver/app/books/command_label_entry.hpp"
#include "solver/app/options/usage_error.hpp"
#include "solver/app/run_files.hpp"
#include "solver/batch/rescue_slip.hpp"
#include "solver/books/costs.hpp"
#include "targets/brief/brief.hpp"
#include "targets/brief/explore_brief.hpp"
#include "targets/brief/swap_brief.hpp"
#include "targets/files/batch_file.hpp"
#include "targets/files/notes.hpp"
#include "targets/files/recipe_file.hpp"

namespace barwright::fuzz {
namespace {

const oils::Library& library() {
  static const oils::Library kept = oils::Library::embedded();
  return kept;
}

void need(bool holds, const char* what) {
  if (!holds) throw std::logic_error(what);
}

// Refusals are answers, if they can be printed.
template <typename Read>
void polite(const Read& read) {
  try {
    read();
  } catch (const core::InputError& error) {
    need(!core::first_unfit(error.what()), "an error holds what no terminal should see");
    need(std::string(error.what()).size() < 40000, "an error without end");
  } catch (const core::Refusal&) {
  } catch (const core::UnitError&) {
  } catch (const batch::SlipError&) {
  } catch (const app::UsageError&) {
  }
}

template <auto read>
void of_a_folder(const std::string& text) {
  polite([&] { read(text, "f.yaml", ".", library()); });
}

void shelf(const std::string& text) {
  polite([&] {
    const oils::Shelf read = oils::read_shelf_text(text, "f.yaml", ".", library());
    oils::check_days(text, read);
    oils::check_lots_apart(text, read);
    const oils::NewLot lot{"castor", "1 kg", "", "", "Z-\"1", "", "a: b", ""};
    const auto [after, again] = oils::with_lots(text, read, std::vector{lot});
    need(again.lots.size() == read.lots.size() + 1, "a lot was added, and others came or went");
  });
}

void journal(const std::string& text) {
  polite([&] {
    const oils::Journal read = oils::read_journal(text, "j.csv");
    oils::ledger_of(read);
    // What is written behind it reads back.
    const oils::Journal again = oils::read_journal(oils::appended(read, read.entries), "j.csv");
    need(again.entries.size() == 2 * read.entries.size(), "lines came or went");
    for (std::size_t i = 0; i < read.entries.size(); ++i)
      need(again.entries[read.entries.size() + i].batch == core::on_one_line(read.entries[i].batch),
           "a name was written as another");
  });
}

void record(const std::string& text) {
  polite([&] {
    oils::read_own_record(oils::yaml::Document::from_text(text, "f.yaml").root(), library());
  });
}

void lots(const std::string& text) {
  polite([&] { oils::read_lots_text(text, "l.csv", *library().find("olive")); });
}

void lists(const std::string& text) {
  const oils::Shelf shelf =
      oils::read_shelf_text("shelf: s\ncurrency: EUR\nstock: []\n", "s.yaml", ".", library());
  polite([&] { oils::read_stock_list_text(text, "l.csv", "", shelf, true); });
  polite([&] { oils::read_price_list_text(text, "l.csv", "", library(), true); });
}

void columns(const std::string& text) {
  const std::string table = "oil,pack,price,lot\nolive,5 kg,31.00,M-1\n";
  const oils::Shelf shelf =
      oils::read_shelf_text("shelf: s\ncurrency: EUR\nstock: []\n", "s.yaml", ".", library());
  polite([&] { oils::read_stock_list_text(table, "l.csv", text, shelf, true); });
}

void costs(const std::string& text) {
  polite([&] { books::read_costs_text(text, "c.yaml", library()); });
}

void label(const std::string& text) {
  polite([&] { app::read_label_entry_text(text, "l.yaml"); });
}

void slips(const std::string& text) {
  for (auto* read : {batch::forgotten, batch::too_much, batch::too_little, batch::swapped,
                     batch::other_strength})
    polite([&] { read(text); });
}

void wish(const std::string& text) {
  const std::string brief = "brief: b\noils-from: library\ncompared-with: plain\nwant: " +
                            oils::yaml::quoted(core::on_one_line(text)) + "\n";
  polite([&] { targets::read_brief_text(brief, "f.yaml", ".", library()); });
  polite([&] { core::parse_quantity(text); });
}

// The first line is the place, the second the value, the rest the file.
void edit(const std::string& text) {
  const std::size_t place = text.find('\n');
  const std::size_t value = place == std::string::npos ? place : text.find('\n', place + 1);
  if (value == std::string::npos) return;
  const std::string path = text.substr(0, place), file = text.substr(value + 1);
  polite([&] {
    oils::yaml::with_value(file, "f.yaml", path, text.substr(place + 1, value - place - 1));
  });
  polite([&] { oils::yaml::without_value(file, "f.yaml", path); });
}

// The first byte picks the command.
void program(const std::string& text) {
  static const std::vector<std::vector<std::string>> commands = {
      {"weigh", "f.yaml"},
      {"weigh", "f.yaml", "--json"},
      {"blend", "f.yaml", "--within", "20ms", "--json"},
      {"sheet", "f.yaml"},
      {"label", "f.yaml", "--json"},
      {"shelf", "list", "--shelf", "f.yaml", "--json"},
      {"make", "f.yaml", "--bars", "9", "--date", "2027-01-01"},
      {"oils", "--check", "f.yaml"}};
  if (text.empty()) return;
  const auto& args = commands[static_cast<unsigned char>(text[0]) % commands.size()];
  const app::FilesReply reply = app::run_over(args, {{"f.yaml", text.substr(1)}});
  need(reply.exit_code != 70, reply.error.c_str());
  need(!core::first_unfit(reply.text) && !core::first_unfit(reply.error),
       "unfit signs are printed");
  need(reply.text.find("  -nan") == std::string::npos, "a figure that is none");
}

}  // namespace

const std::vector<Reader>& readers() {
  static const std::vector<Reader> all = {
      {"recipe", of_a_folder<targets::read_recipe_text>},
      {"notes", of_a_folder<targets::read_notes_text>},
      {"brief", of_a_folder<targets::read_brief_text>},
      {"swap", of_a_folder<targets::read_swap_brief_text>},
      {"explore", of_a_folder<targets::read_explore_brief_text>},
      {"batch", of_a_folder<targets::read_batch_text>},
      {"shelf", shelf},
      {"journal", journal},
      {"record", record},
      {"lots", lots},
      {"lists", lists},
      {"columns", columns},
      {"costs", costs},
      {"label", label},
      {"slips", slips},
      {"wish", wish},
      {"edit", edit},
      {"program", program}};
  return all;
}

}  // namespace barwright::fuzz
