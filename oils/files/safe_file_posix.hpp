#pragma once

#include "oils/files/safe_file.hpp"

namespace barwright::oils {

/// Returns the operations of the real file system (POSIX). Files keep owner, group and permissions.
FileOps& real_files();

}  // namespace barwright::oils
