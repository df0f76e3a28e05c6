#include "sim/diagnose/library_file.hpp"

#include <algorithm>
#include <cstring>
#include <type_traits>

#include "sim/base/file.hpp"
#include "sim/base/hash.hpp"

namespace sixty::diagnose {
namespace {

constexpr std::uint64_t kMagic = 0x3353'4547'4149'4458;  // changes with the order of what follows
constexpr std::size_t kMostBytes = 1u << 30;

class Writer {
 public:
  template <class Plain>
  void put(const Plain& value) {
    static_assert(std::is_trivially_copyable_v<Plain>);
    bytes_.append(reinterpret_cast<const char*>(&value), sizeof value);
  }
  /// Mostly nothing departs.
  void put_departures(const std::vector<float>& all) {
    const auto count = std::count_if(all.begin(), all.end(), [](float z) { return z != 0; });
    put(static_cast<std::uint64_t>(count));
    for (std::size_t k = 0; k < all.size(); ++k) {
      if (all[k] == 0) continue;
      put(static_cast<std::uint32_t>(k));
      put(all[k]);
    }
  }
  std::string& bytes() { return bytes_; }

 private:
  std::string bytes_;
};

class Reader {
 public:
  explicit Reader(std::string_view bytes) : bytes_(bytes) {}
  template <class Plain>
  Plain take() {
    static_assert(std::is_trivially_copyable_v<Plain>);
    Plain value{};
    good_ = good_ && bytes_.size() - at_ >= sizeof value;
    if (!good_) return value;
    std::memcpy(&value, bytes_.data() + at_, sizeof value);
    at_ += sizeof value;
    return value;
  }
  /// How many follow; more than there are bytes cannot be.
  std::size_t count() {
    const auto count = take<std::uint64_t>();
    good_ = good_ && count <= bytes_.size();
    return good_ ? static_cast<std::size_t>(count) : 0;
  }
  std::vector<float> departures(std::size_t size) {
    std::vector<float> all(size);
    const std::size_t some = count();
    for (std::size_t k = 0; k < some && good_; ++k) {
      const auto at = take<std::uint32_t>();
      const auto z = take<float>();
      good_ = good_ && at < size;
      if (good_) all[at] = z;
    }
    return all;
  }
  bool good() const { return good_; }
  bool done() const { return good_ && at_ == bytes_.size(); }

 private:
  std::string_view bytes_;
  std::size_t at_ = 0;
  bool good_ = true;
};

std::uint64_t mixed(std::uint64_t h, const std::string& text) { return mix(h, hash_text(text)); }

std::uint64_t mixed(std::uint64_t h, const Value& value) {
  h = mix(h, hash_bytes(&value.number, sizeof value.number));
  h = mixed(h, value.text);
  for (const Value& item : value.items) h = mixed(h, item);
  for (const auto& record : value.records) {
    for (const auto& [name, field] : record) h = mixed(mixed(h, name), field);
  }
  return h;
}

Course take_course(Reader& reader) {
  Course course;
  course.kind = static_cast<Course::Kind>(reader.take<std::uint8_t>());
  course.amount = reader.take<double>();
  course.span = reader.take<SimTime>();
  course.from = reader.take<SimTime>();
  course.to = reader.take<SimTime>();
  return course;
}

void put_course(Writer& writer, const Course& course) {
  writer.put(static_cast<std::uint8_t>(course.kind));
  writer.put(course.amount);
  writer.put(course.span);
  writer.put(course.from);
  writer.put(course.to);
}

Run take_run(Reader& reader, std::size_t suspects, std::size_t size, bool& good) {
  Run one;
  one.suspect = static_cast<std::size_t>(reader.take<std::uint64_t>());
  good = good && one.suspect < suspects;
  one.manner.severity = reader.take<double>();
  one.manner.from = reader.take<SimTime>();
  one.manner.course = take_course(reader);
  one.shows = reader.take<std::uint8_t>() != 0;
  one.steady = reader.take<std::uint8_t>() != 0;
  one.departures = reader.departures(size);
  return one;
}

}  // namespace

std::uint64_t key_of(const Library& library, const LibraryPlan& plan) {
  const Installation& installation = *library.installation;
  std::uint64_t h = mixed(mixed(kMagic, installation.name), installation.assumptions.name);
  h = mix(h, installation.seed);
  for (const PartInstance& part : installation.parts) {
    h = mixed(mixed(mixed(h, part.name), part.kind->name), part.room);
    for (const auto& [name, value] : part.values) h = mixed(mixed(h, name), value);
    for (const auto& [terminal, node] : part.nodes)
      h = mix(mixed(h, terminal), static_cast<std::uint64_t>(node));
    for (const SheetText& text : part.kind->signs) h = mixed(h, text.text);
    for (const SheetText& text : part.kind->faults) h = mixed(h, text.text);
  }
  for (const Action& action : installation.script)
    h = mix(mixed(h, action.text), static_cast<std::uint64_t>(action.at));
  for (const std::uint64_t number :
       {static_cast<std::uint64_t>(plan.until), static_cast<std::uint64_t>(plan.runs),
        static_cast<std::uint64_t>(plan.sound), plan.seed})
    h = mix(h, number);
  return mix(h, hash_bytes(&plan.vary, sizeof plan.vary));
}

bool read_library(Library& library, std::uint64_t key, const std::string& path) {
  Diagnostics unheard;
  const auto bytes = read_file_bounded(path, kMostBytes, unheard);
  if (!bytes || bytes->size() < sizeof(std::uint64_t)) return false;
  const std::string_view whole(*bytes);
  const std::string_view body = whole.substr(0, whole.size() - sizeof(std::uint64_t));
  Reader tail(whole.substr(body.size()));
  if (tail.take<std::uint64_t>() != hash_text(body)) return false;
  Reader reader(body);
  if (reader.take<std::uint64_t>() != kMagic || reader.take<std::uint64_t>() != key) return false;
  WatchPlan watch = library.watch;
  watch.most_events_an_hour = reader.take<std::uint64_t>();
  const std::size_t size = library.signs.size() * watch.spans();
  std::vector<Usual> usual(reader.count() == size ? size : 0);
  for (Usual& one : usual) one = reader.take<Usual>();
  std::vector<std::vector<float>> sound(reader.count());
  for (auto& one : sound) one = reader.departures(size);
  bool good = usual.size() == size;
  const std::size_t count = reader.count();
  std::vector<Run> runs;
  for (std::size_t k = 0; k < count && good && reader.good(); ++k)
    runs.push_back(take_run(reader, library.suspects.size(), size, good));
  if (!good || !reader.done() || sound.empty() || runs.empty()) return false;
  library.watch = std::move(watch);
  library.usual = std::move(usual);
  library.sound = std::move(sound);
  library.runs = std::move(runs);
  library.simulations = library.sound.size() + library.runs.size();
  make_cases(library);
  return true;
}

bool write_library(const Library& library, std::uint64_t key, const std::string& path,
                   std::string& error) {
  Writer writer;
  writer.put(kMagic);
  writer.put(key);
  writer.put(library.watch.most_events_an_hour);
  writer.put(static_cast<std::uint64_t>(library.usual.size()));
  for (const Usual& one : library.usual) writer.put(one);
  writer.put(static_cast<std::uint64_t>(library.sound.size()));
  for (const auto& one : library.sound) writer.put_departures(one);
  const auto run = std::count_if(library.runs.begin(), library.runs.end(),
                                 [](const Run& one) { return !one.between; });
  writer.put(static_cast<std::uint64_t>(run));
  for (const Run& one : library.runs) {
    if (one.between) continue;
    writer.put(static_cast<std::uint64_t>(one.suspect));
    writer.put(one.manner.severity);
    writer.put(one.manner.from);
    put_course(writer, one.manner.course);
    writer.put(static_cast<std::uint8_t>(one.shows ? 1 : 0));
    writer.put(static_cast<std::uint8_t>(one.steady ? 1 : 0));
    writer.put_departures(one.departures);
  }
  writer.put(hash_text(writer.bytes()));
  return write_file_whole(path, writer.bytes(), error);
}

}  // namespace sixty::diagnose
