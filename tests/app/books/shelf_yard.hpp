#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "core/units/error.hpp"
#include "solver/app/books/command_label.hpp"
#include "solver/app/books/command_make.hpp"
#include "solver/app/books/command_price.hpp"
#include "solver/app/books/command_release.hpp"
#include "solver/app/books/command_shelf.hpp"

namespace barwright::tests {

// Invented stock and recipe.
inline const char* const kYardShelf = R"(shelf: Weighbridge Yard
currency: EUR
stock:
  - {oil: olive, have: 5 kg, paid: 31.00 for 5 kg, supplier: Millbank, lot: MB-2291, best-before: 2028-02-01}
  - {oil: coconut, have: 2.6 kg, paid: 21.50 for 5 kg, supplier: Millbank, lot: K-3}   # two pails
  - {oil: castor, have: 300 g, paid: 8.70 for 1 kg, lot: C-1, best-before: 2027-05-01}
  - {oil: castor, have: 500 g, paid: 9.50 for 1 kg, lot: C-2, best-before: 2028-05-01}
)";
inline const char* const kYardBar = R"(name: yard bar
shelf: yard-shelf.yaml
blend: {olive: 70 %, coconut: 20 %, castor: 10 %}
superfat: 5 %
concentration: 33 %
oils: 2000 g
scale: {oils: 1 g, lye: 0.1 g}
)";

/// A folder of its own for one test, with a shelf and a recipe in it.
class YardFolder {
 public:
  explicit YardFolder(const std::string& name)
      : folder_(std::filesystem::temp_directory_path() / ("barwright-app-" + name)) {
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_);
    write("yard-shelf.yaml", kYardShelf);
    write("yard-bar.yaml", kYardBar);
  }
  ~YardFolder() { std::filesystem::remove_all(folder_); }

  std::string path(const std::string& name) const { return (folder_ / name).string(); }
  void write(const std::string& name, const std::string& text) const {
    std::ofstream(path(name), std::ios::binary) << text;
  }
  std::string read(const std::string& name) const {
    std::ifstream file(path(name), std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
  }

  /// Runs one command; "@name" stands for a file of this folder. Returns what it prints. Errors
  /// come through as thrown.
  std::string run(std::vector<std::string> words) const {
    app::CommandLine app("barwright", "");
    app::Action action;
    app::add_shelf(app, action);
    app::add_make(app, action);
    app::add_release(app, action);
    app::add_label(app, action);
    app::add_price(app, action);
    for (auto& word : words) {
      if (word.starts_with("@")) word = path(word.substr(1));
    }
    std::vector<const char*> arguments = {"barwright"};
    for (const auto& word : words) arguments.push_back(word.c_str());
    app.parse(static_cast<int>(arguments.size()), arguments.data());
    const auto outcome = action();
    return outcome.text + outcome.diagnostics;
  }
  /// The same for commands that open the books, on a day.
  std::string on(const std::string& day, std::vector<std::string> words) const {
    for (const char* word : {"--shelf", "@yard-shelf.yaml", "--date"}) words.emplace_back(word);
    words.push_back(day);
    return run(std::move(words));
  }
  nlohmann::json json(const std::string& day, std::vector<std::string> words) const {
    words.emplace_back("--json");
    return nlohmann::json::parse(on(day, std::move(words)));
  }

 private:
  std::filesystem::path folder_;
};

/// Returns what a call says when it fails: an input error's text or a usage error's message.
template <typename Call>
std::string complaint(Call call) {
  try {
    call();
  } catch (const core::InputError& error) {
    return error.what();
  } catch (const app::UsageError& error) {
    return error.message;
  } catch (const core::Refusal& refusal) {
    return refusal.reason();
  }
  return "no complaint";
}

}  // namespace barwright::tests
