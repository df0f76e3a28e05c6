#include "sim/base/file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <climits>
#include <cstring>

#include "sim/base/text.hpp"

namespace sixty {
namespace {

constexpr std::size_t kWriteBuffer = 1 << 16;  // bytes gathered before they go to the disk
constexpr int kTemporaryNames = 1000;

// A file descriptor that closes itself.
class OpenFile {
 public:
  explicit OpenFile(int number) : number_(number) {}
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;
  ~OpenFile() {
    if (number_ >= 0) ::close(number_);
  }
  int number() const { return number_; }

 private:
  int number_;
};

std::string system_reason() {
  char buffer[256] = "";
  return strerror_r(errno, buffer, sizeof buffer);
}

std::string kind_of_file(mode_t mode) {
  if (S_ISDIR(mode)) return "a folder";
  if (S_ISFIFO(mode)) return "a pipe";
  if (S_ISSOCK(mode)) return "a socket";
  if (S_ISCHR(mode) || S_ISBLK(mode)) return "a device";
  return "no regular file";
}

Diagnostic cannot_open(const std::string& path) {
  Diagnostic d{path, 0, 0, "cannot be read", system_reason(), "a file that may be read", ""};
  d.mend = errno == ENOENT ? "check the name and the folder it is looked for in"
                           : "check the file's permissions";
  return d;
}

Diagnostic too_large(const std::string& path, std::size_t limit_bytes) {
  return {path,
          0,
          0,
          "the file is too large",
          "more than " + std::to_string(limit_bytes) + " bytes",
          "at most " + std::to_string(limit_bytes) + " bytes",
          "split it, or check that it is the right file"};
}

// Reads one byte more than the limit, so that a file that grows meanwhile is noticed.
bool read_all(int file, std::size_t limit_bytes, std::string& bytes) {
  char block[16384];
  while (bytes.size() <= limit_bytes) {
    const ssize_t got = ::read(file, block, std::min(sizeof block, limit_bytes + 1 - bytes.size()));
    if (got == 0) return true;
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return false;
    bytes.append(block, static_cast<std::size_t>(got));
  }
  return true;
}

std::string folder_of(const std::string& path) {
  const std::size_t slash = path.rfind('/');
  if (slash == std::string::npos) return ".";
  return slash == 0 ? "/" : path.substr(0, slash);
}

// Where a link points, seen from the link's own folder; an empty text if this is no link.
std::string link_target(const std::string& path) {
  std::string target(PATH_MAX, '\0');
  const ssize_t length = ::readlink(path.c_str(), target.data(), target.size());
  if (length <= 0) return "";
  target.resize(static_cast<std::size_t>(length));
  return target.front() == '/' ? target : folder_of(path) + "/" + target;
}

// The file that a path leads to, which need not be there yet.
// Errors: nothing if links lead round in a circle; errno tells so.
std::optional<std::string> links_followed(std::string path) {
  constexpr int kMostLinks = 40;  // as the kernel has it
  for (int link = 0; link <= kMostLinks; ++link) {
    const std::string target = link_target(path);
    if (target.empty()) return path;
    path = target;
  }
  errno = ELOOP;
  return std::nullopt;
}

// A hidden name beside the target that nobody holds yet; the process number keeps two runs apart.
std::string temporary_name(const std::string& target, int attempt) {
  const std::size_t slash = target.rfind('/');
  const std::size_t start = slash == std::string::npos ? 0 : slash + 1;
  return target.substr(0, start) + "." + target.substr(start).substr(0, 200) + "." +
         std::to_string(::getpid()) + "-" + std::to_string(attempt) + ".part";
}

}  // namespace

std::optional<std::string> read_file_bounded(const std::string& path, std::size_t limit_bytes,
                                             Diagnostics& diagnostics) {
  if (path.find('\0') != std::string::npos) {
    diagnostics.add({printable(path), 0, 0, "no file can have this name", printable(path),
                     "a name without a zero byte", "correct the name"});
    return std::nullopt;
  }
  // Without O_NONBLOCK, opening a pipe would wait for somebody to write into it.
  const OpenFile file(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC | O_NOCTTY));
  struct stat facts {};
  if (file.number() < 0 || ::fstat(file.number(), &facts) != 0) {
    diagnostics.add(cannot_open(path));
    return std::nullopt;
  }
  if (!S_ISREG(facts.st_mode)) {
    diagnostics.add({path, 0, 0, "is not a regular file", kind_of_file(facts.st_mode),
                     "a regular file", "give the name of a file"});
    return std::nullopt;
  }
  std::string bytes;
  if (!read_all(file.number(), limit_bytes, bytes)) {
    diagnostics.add(cannot_open(path));
    return std::nullopt;
  }
  if (bytes.size() > limit_bytes) {
    diagnostics.add(too_large(path, limit_bytes));
    return std::nullopt;
  }
  return bytes;
}

WholeFile::~WholeFile() { discard(); }

bool WholeFile::fail(const std::string& action) {
  if (error_.empty()) error_ = action + " " + printable(target_, 500) + ": " + system_reason();
  return false;
}

void WholeFile::discard() {
  if (file_ >= 0) ::close(file_);
  if (!temporary_.empty()) ::unlink(temporary_.c_str());
  file_ = -1;
  temporary_.clear();
  buffer_.clear();
}

bool WholeFile::open(const std::string& path, std::string& error) {
  discard();
  error_.clear();
  target_ = path;
  const std::optional<std::string> followed = links_followed(path);
  if (!followed) {
    fail("cannot write");
    error = error_;
    return false;
  }
  target_ = *followed;
  struct stat facts {};
  if (::stat(path.c_str(), &facts) == 0 && !S_ISREG(facts.st_mode)) {
    error = "cannot write " + printable(path, 500) + ": it is " + kind_of_file(facts.st_mode) +
            "; give the name of a file";
    return false;
  }
  if (open_temporary()) return true;
  error = error_;
  return false;
}

bool WholeFile::open_temporary() {
  for (int attempt = 0; attempt < kTemporaryNames; ++attempt) {
    const std::string name = temporary_name(target_, attempt);
    file_ = ::open(name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file_ >= 0) {
      temporary_ = name;
      return true;
    }
    if (errno != EEXIST) break;
  }
  return fail("cannot write");
}

bool WholeFile::flush() {
  std::string_view rest = buffer_;
  while (!rest.empty()) {
    const ssize_t written = ::write(file_, rest.data(), rest.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return fail("cannot write");
    rest.remove_prefix(static_cast<std::size_t>(written));
  }
  buffer_.clear();
  return true;
}

bool WholeFile::write(std::string_view bytes) {
  if (file_ < 0 || !error_.empty()) return false;
  buffer_ += bytes;
  return buffer_.size() < kWriteBuffer || flush();
}

bool WholeFile::settle() {
  if (file_ < 0 || !error_.empty() || !flush()) return false;
  struct stat older {};
  const bool replaces = ::stat(target_.c_str(), &older) == 0;
  if (replaces && ::fchmod(file_, older.st_mode & 07777) != 0) return fail("cannot write");
  if (::fsync(file_) != 0) return fail("cannot write");
  if (::rename(temporary_.c_str(), target_.c_str()) != 0) return fail("cannot replace");
  temporary_.clear();
  return true;
}

bool WholeFile::commit(std::string& error) {
  const bool done = settle();
  if (!done) error = error_.empty() ? "nothing was opened for writing" : error_;
  discard();
  if (!done) return false;
  // The new name is on the disk only once its folder is; where a file system cannot do that, the
  // file is whole all the same.
  const OpenFile folder(::open(folder_of(target_).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (folder.number() >= 0) ::fsync(folder.number());
  return true;
}

bool write_file_whole(const std::string& path, std::string_view bytes, std::string& error) {
  WholeFile file;
  if (!file.open(path, error)) return false;
  file.write(bytes);
  return file.commit(error);
}

}  // namespace sixty
