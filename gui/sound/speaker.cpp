#include "gui/sound/speaker.hpp"

#include <dlfcn.h>

#include <SFML/Audio/SoundStream.hpp>
#include <SFML/System/Err.hpp>
#include <cstdlib>
#include <streambuf>
#include <vector>

#include "gui/sound/grain.hpp"

namespace sixty::gui {
namespace {

constexpr std::size_t kChunk = 882;  // frames asked for at a time: 20 ms
constexpr const char* kDeviceLibrary = "libopenal.so.1";
constexpr const char* kCardLibrary = "libasound.so.2";

/// Swallows what is written to it.
class Nowhere final : public std::streambuf {
 protected:
  int overflow(int c) override { return traits_type::not_eof(c); }
};

void say_nothing(const char*, int, const char*, int, const char*, ...) {}

/// Whether there is a device to play on: asked before the stream is made, because the stream of a
/// library without device fails again at each of its calls.
bool device_is_there() {
  void* const library = dlopen(kDeviceLibrary, RTLD_NOW);
  if (library == nullptr) return false;
  using Open = void* (*)(const char*);
  using Close = char (*)(void*);
  const auto open = reinterpret_cast<Open>(dlsym(library, "alcOpenDevice"));
  const auto close = reinterpret_cast<Close>(dlsym(library, "alcCloseDevice"));
  void* const device = open != nullptr && close != nullptr ? open(nullptr) : nullptr;
  if (device != nullptr) close(device);
  return device != nullptr;
}

class Stream final : public sf::SoundStream {
 public:
  explicit Stream(const Speaker::Source& source) : source_(source), samples_(2 * kChunk) {
    initialize(2, kFrameRate);
  }
  ~Stream() override { stop(); }

 private:
  bool onGetData(Chunk& data) override {
    source_(samples_);
    data.samples = samples_.data();
    data.sampleCount = samples_.size();
    return true;
  }
  void onSeek(sf::Time) override {}

  const Speaker::Source& source_;
  std::vector<std::int16_t> samples_;
};

}  // namespace

void hush_sound_libraries() {
  static Nowhere nowhere;
  sf::err().rdbuf(&nowhere);
  setenv("ALSOFT_LOGLEVEL", "0", 0);  // unless somebody wants to see it
  void* const library = dlopen(kCardLibrary, RTLD_NOW);
  if (library == nullptr) return;
  using Handler = void (*)(const char*, int, const char*, int, const char*, ...);
  using Set = int (*)(Handler);
  const auto set = reinterpret_cast<Set>(dlsym(library, "snd_lib_error_set_handler"));
  if (set != nullptr) set(&say_nothing);
}

Speaker::Speaker(Source source) : source_(std::move(source)) {
  hush_sound_libraries();
  thread_ = std::thread([this] { open(); });
}

Speaker::~Speaker() {
  ends_ = true;
  ends_.notify_all();
  thread_.join();
}

void Speaker::open() {
  if (!device_is_there()) {
    state_ = Is::kMissing;
    return;
  }
  Stream stream(source_);
  stream.play();
  state_ = Is::kOpen;
  ends_.wait(false);
}

}  // namespace sixty::gui
