#include "solver/app/blend/brief_hash.hpp"

#include <algorithm>
#include <filesystem>
#include <vector>

#include "oils/books/stock.hpp"
#include "oils/files/safe_file.hpp"
#include "oils/files/safe_file_posix.hpp"
#include "oils/text/workshop_place.hpp"
#include "targets/files/workshop.hpp"

namespace barwright::app {

std::string brief_hash(const targets::Brief& brief, const std::string& text,
                       const std::string& library_folder) {
  std::vector<std::string> files;
  if (text.empty()) files.push_back(brief.file);
  if (brief.compared_with) files.push_back(brief.compared_with->file);
  if (brief.shelf) {
    files.push_back(brief.shelf->path);
    files.push_back(oils::journal_path(brief.shelf->path));
  }
  for (const auto& shelf : brief.oils_from.shelves) files.push_back(shelf.path);
  std::error_code none;
  // What the workshop's file fills in is as much the brief's as its own lines.
  const auto workshop = (std::filesystem::path(brief.folder) / oils::kWorkshopFile).string();
  if (std::filesystem::is_regular_file(workshop, none)) {
    files.push_back(workshop);
    const auto shop = targets::workshop_in(brief.folder);
    if (!brief.shelf && shop && shop->shelf) {
      files.push_back(shop->shelf->path);
      files.push_back(oils::journal_path(shop->shelf->path));
    }
  }
  std::vector<std::string> records;
  if (!library_folder.empty())
    for (const auto& entry : std::filesystem::directory_iterator(library_folder, none))
      records.push_back(entry.path().string());
  std::sort(records.begin(), records.end());
  files.insert(files.end(), records.begin(), records.end());
  std::string marks = text;
  for (const auto& file : files) {
    if (file.empty() || std::filesystem::is_directory(file, none)) continue;
    marks += file + '\n' + oils::mark_of(oils::real_files().read(file)) + '\n';
  }
  return oils::mark_of(marks);
}

}  // namespace barwright::app
