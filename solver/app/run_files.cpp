#include "solver/app/run_files.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <mutex>
#include <stdexcept>
#include <system_error>

#include "core/units/plain_text.hpp"
#include "oils/files/safe_file.hpp"
#include "oils/files/safe_file_posix.hpp"
#include "solver/app/exit_code.hpp"

namespace barwright::app {
namespace {

namespace fs = std::filesystem;

// A folder of its own below the system's temporary one, left and removed at the end.
class FreshFolder {
 public:
  FreshFolder() : before_(fs::current_path()) {
    std::string name = (fs::temp_directory_path() / "barwright-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr)
      throw std::runtime_error(name + ": the folder for a run cannot be made");
    folder_ = name;
    fs::current_path(folder_);
  }
  ~FreshFolder() {
    std::error_code ignored;
    fs::current_path(before_, ignored);
    fs::remove_all(folder_, ignored);
  }
  FreshFolder(const FreshFolder&) = delete;
  FreshFolder& operator=(const FreshFolder&) = delete;

 private:
  fs::path before_, folder_;
};

void put(const std::string& path, const std::string& text) {
  const fs::path folder = fs::path(path).parent_path();
  if (!folder.empty()) fs::create_directories(folder);
  std::ofstream file(path, std::ios::binary | std::ios::trunc);
  file << text;
  file.close();
  if (!file) throw std::runtime_error(path + ": cannot be written for a run");
}

// A lock is a run's own; it says nothing once the run is over.
bool is_lock(const fs::path& path) {
  const std::string name = path.filename().string();
  return name.starts_with('.') && name.ends_with("-lock");
}

void compare(const Files& before, FilesReply& out) {
  std::vector<std::string> seen;
  for (const auto& entry : fs::recursive_directory_iterator(".")) {
    if (!entry.is_regular_file() || is_lock(entry.path())) continue;
    const std::string path = entry.path().lexically_relative(".").generic_string();
    seen.push_back(path);
    std::string text = oils::real_files().read(entry.path().string()).value_or("");
    const auto was = before.find(path);
    if (was == before.end() || was->second != text) out.written.emplace(path, std::move(text));
  }
  std::sort(seen.begin(), seen.end());
  for (const auto& [path, text] : before)
    if (!std::binary_search(seen.begin(), seen.end(), path)) out.removed.push_back(path);
}

}  // namespace

bool stays_within(const std::string& path) {
  if (path.empty() || path.size() > 1000 || path.find('\0') != std::string::npos ||
      path.find('\\') != std::string::npos || path.find("//") != std::string::npos ||
      path.ends_with('/') || core::first_unfit(path) || path.find_first_of("\t\r\n") != path.npos)
    return false;
  const fs::path parts(path);
  return parts.is_relative() && std::none_of(parts.begin(), parts.end(), [](const fs::path& part) {
           return part == ".." || part == "." || part.empty();
         });
}

FilesReply run_over(const std::vector<std::string>& args, const Files& files,
                    const Surroundings& where) {
  for (const auto& [path, text] : files) {
    if (stays_within(path)) continue;
    FilesReply out;
    out.exit_code = kWrongUsage;
    out.error = fmt::format("'{}' is no path within the folder.\n", path);
    return out;
  }
  static std::mutex one_at_a_time;
  const std::lock_guard<std::mutex> hold(one_at_a_time);
  const FreshFolder folder;
  for (const auto& [path, text] : files) put(path, text);
  FilesReply out;
  static_cast<Reply&>(out) = run(args, where);
  compare(files, out);
  return out;
}

}  // namespace barwright::app
