#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "sim/base/diagnostic.hpp"

namespace sixty {

/// The bytes of a regular file. Range: at most `limit_bytes`. Errors: nothing is returned and one
/// diagnostic added for what is missing, unreadable, too large, or no regular file (a folder, a
/// pipe or a device; a pipe is refused without waiting for its other end).
std::optional<std::string> read_file_bounded(const std::string& path, std::size_t limit_bytes,
                                             Diagnostics& diagnostics);

/// A file that appears whole or not at all: bytes go to a hidden neighbour in the same folder,
/// and only commit() gives it the name. Until then, an older file of that name stays as it was;
/// without a commit the neighbour is removed. A symbolic link is followed, so that the link stays.
class WholeFile {
 public:
  WholeFile() = default;
  WholeFile(const WholeFile&) = delete;
  WholeFile& operator=(const WholeFile&) = delete;
  ~WholeFile();

  /// Errors: false, with the reason in `error`, if a file cannot be made there or if the name is
  /// held by something that is no regular file.
  bool open(const std::string& path, std::string& error);
  /// Order: after open(). Errors: false; the reason is then what commit() reports.
  bool write(std::string_view bytes);
  /// Puts the bytes on the disk and gives them the file's name. Errors: false if anything since
  /// open() went wrong; the older file is then untouched.
  bool commit(std::string& error);

 private:
  bool open_temporary();
  bool flush();
  bool settle();
  bool fail(const std::string& action);
  void discard();

  std::string target_;     // with links followed
  std::string temporary_;  // empty once committed or discarded
  std::string buffer_;
  std::string error_;
  int file_ = -1;
};

/// Writes all bytes as the file `path`, whole or not at all. Errors: false, the reason in `error`.
bool write_file_whole(const std::string& path, std::string_view bytes, std::string& error);

}  // namespace sixty
