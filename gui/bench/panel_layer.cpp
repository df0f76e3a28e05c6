#include "gui/bench/panel_layer.hpp"

#include <imgui/backends/imgui_impl_opengl3.h>
#include <imgui/imgui_internal.h>

#include <algorithm>
#include <cfloat>
#include <stdexcept>

namespace sixty::gui {
namespace {

// Of the em; ImGui measures letters from ascent to descent, which in this face is 1.165 em.
constexpr float kFaceHeight = 1.165F;
constexpr float kBody = 15 * kFaceHeight, kHeading = 22 * kFaceHeight;

const ImWchar kLetters[] = {0x0020, 0x024F, 0x0370, 0x03FF, 0x0400, 0x052F, 0x1E00, 0x1EFF,
                            0x2010, 0x2044, 0x2190, 0x22FF, 0x25A0, 0x26FF, 0};
// Headings are names: no signs stand in them.
const ImWchar kLettersOfNames[] = {0x0020, 0x024F, 0x0370, 0x03FF, 0x0400, 0x052F,
                                   0x1E00, 0x1EFF, 0x2010, 0x2044, 0};

ImVec4 part_of_one(sf::Color c) { return {c.r / 255.0F, c.g / 255.0F, c.b / 255.0F, c.a / 255.0F}; }

std::size_t index(int code) { return static_cast<std::size_t>(code); }

void map_keys(ImGuiIO& io) {
  using K = sf::Keyboard;
  const std::pair<ImGuiKey_, K::Key> keys[] = {{ImGuiKey_Tab, K::Tab},
                                               {ImGuiKey_LeftArrow, K::Left},
                                               {ImGuiKey_RightArrow, K::Right},
                                               {ImGuiKey_UpArrow, K::Up},
                                               {ImGuiKey_DownArrow, K::Down},
                                               {ImGuiKey_PageUp, K::PageUp},
                                               {ImGuiKey_PageDown, K::PageDown},
                                               {ImGuiKey_Home, K::Home},
                                               {ImGuiKey_End, K::End},
                                               {ImGuiKey_Insert, K::Insert},
                                               {ImGuiKey_Delete, K::Delete},
                                               {ImGuiKey_Backspace, K::Backspace},
                                               {ImGuiKey_Space, K::Space},
                                               {ImGuiKey_Enter, K::Enter},
                                               {ImGuiKey_Escape, K::Escape},
                                               {ImGuiKey_A, K::A},
                                               {ImGuiKey_C, K::C},
                                               {ImGuiKey_V, K::V},
                                               {ImGuiKey_X, K::X},
                                               {ImGuiKey_Y, K::Y},
                                               {ImGuiKey_Z, K::Z}};
  for (const auto& [theirs, ours] : keys) io.KeyMap[theirs] = ours;
}

}  // namespace

PanelLayer::PanelLayer(sf::RenderWindow& window, const Letters& letters, float scale)
    : window_(window), letters_(letters), scale_(scale) {
  IMGUI_CHECKVERSION();
  ImGui::CreateContext();
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  map_keys(io);
  load_letters();
  // The letters' picture too: now, since the scene may still be made on another thread.
  if (!ImGui_ImplOpenGL3_Init("#version 130") || !ImGui_ImplOpenGL3_CreateDeviceObjects()) {
    ImGui::DestroyContext();
    throw std::runtime_error("the display has no OpenGL 3, which the panels are drawn with");
  }
}

/// Drawn as large as they will be seen, so that they are sharp.
void PanelLayer::load_letters() {
  ImGuiIO& io = ImGui::GetIO();
  io.Fonts->Clear();
  // Their picture is most of what the first frame waits for: two places for a letter within a pixel
  // do, and rows that nothing stands in are left out.
  io.Fonts->Flags |= ImFontAtlasFlags_NoPowerOfTwoHeight;
  ImFontConfig config;
  config.OversampleH = 2;
  const auto load = [&](const std::string& file, float size, const ImWchar* letters) {
    return io.Fonts->AddFontFromFileTTF(file.c_str(), size * scale_, &config, letters);
  };
  load(letters_.plain_file(), kBody, kLetters);
  heading_ = load(letters_.bold_file(), kHeading, kLettersOfNames);
  io.FontGlobalScale = 1 / scale_;
}

void PanelLayer::set_scale(float scale) {
  if (scale == scale_) return;
  scale_ = scale;
  load_letters();
  ImGui_ImplOpenGL3_DestroyFontsTexture();
  ImGui_ImplOpenGL3_CreateFontsTexture();
}

PanelLayer::~PanelLayer() {
  ImGui_ImplOpenGL3_Shutdown();
  ImGui::DestroyContext();
}

void PanelLayer::style(const Theme& theme) {
  ImGuiStyle style;
  style.WindowPadding = {18, 14};
  style.FramePadding = {10, 5};
  style.ItemSpacing = {8, 8};
  style.CellPadding = {6, 3};
  style.ItemInnerSpacing = {8, 4};
  style.WindowRounding = 0;
  style.FrameRounding = style.ChildRounding = style.PopupRounding = style.TabRounding = 4;
  style.GrabRounding = 3;
  style.GrabMinSize = 12;
  style.WindowBorderSize = 0;
  style.FrameBorderSize = 1;
  const auto set = [&](ImGuiCol role, sf::Color colour) {
    style.Colors[role] = part_of_one(colour);
  };
  for (const ImGuiCol role : {ImGuiCol_WindowBg, ImGuiCol_ChildBg, ImGuiCol_PopupBg})
    set(role, theme.panel);
  for (const ImGuiCol role : {ImGuiCol_Button, ImGuiCol_Header, ImGuiCol_FrameBg})
    set(role, theme.raised);
  const sf::Color hovered = mix(theme.raised, theme.second_text, 0.18F);
  for (const ImGuiCol role :
       {ImGuiCol_ButtonHovered, ImGuiCol_HeaderHovered, ImGuiCol_FrameBgHovered})
    set(role, hovered);
  for (const ImGuiCol role : {ImGuiCol_ButtonActive, ImGuiCol_HeaderActive, ImGuiCol_FrameBgActive})
    set(role, mix(theme.raised, theme.ground, 0.6F));
  for (const ImGuiCol role : {ImGuiCol_Tab, ImGuiCol_TabUnfocused}) set(role, theme.panel);
  for (const ImGuiCol role : {ImGuiCol_TabActive, ImGuiCol_TabUnfocusedActive, ImGuiCol_TabHovered})
    set(role, hovered);
  set(ImGuiCol_PlotHistogram, theme.grab);
  set(ImGuiCol_Border, theme.edge);
  set(ImGuiCol_TitleBg, theme.raised);
  set(ImGuiCol_TitleBgActive, theme.raised);
  set(ImGuiCol_TableHeaderBg, theme.panel);
  set(ImGuiCol_Separator, theme.rule);
  set(ImGuiCol_Text, theme.text);
  set(ImGuiCol_TextDisabled, theme.second_text);
  for (const ImGuiCol role : {ImGuiCol_SliderGrab, ImGuiCol_SliderGrabActive, ImGuiCol_CheckMark})
    set(role, theme.grab);
  set(ImGuiCol_NavHighlight, theme.text);
  set(ImGuiCol_ScrollbarBg, theme.panel);
  set(ImGuiCol_ScrollbarGrab, theme.edge);
  ImGui::GetStyle() = style;
}

void PanelLayer::handle(const sf::Event& event) {
  ImGuiIO& io = ImGui::GetIO();
  switch (event.type) {
    case sf::Event::MouseMoved:
      io.MousePos = {static_cast<float>(event.mouseMove.x), static_cast<float>(event.mouseMove.y)};
      break;
    case sf::Event::MouseLeft:
      io.MousePos = {-FLT_MAX, -FLT_MAX};
      break;
    case sf::Event::MouseButtonPressed:
    case sf::Event::MouseButtonReleased: {
      io.MousePos = {static_cast<float>(event.mouseButton.x),
                     static_cast<float>(event.mouseButton.y)};
      const std::size_t button = index(event.mouseButton.button);
      if (button >= button_down_.size()) break;
      button_down_[button] = event.type == sf::Event::MouseButtonPressed;
      button_latch_[button] = button_latch_[button] || button_down_[button];
      break;
    }
    case sf::Event::MouseWheelScrolled:
      (event.mouseWheelScroll.wheel == sf::Mouse::VerticalWheel ? io.MouseWheel : io.MouseWheelH) +=
          event.mouseWheelScroll.delta;
      break;
    case sf::Event::KeyPressed:
    case sf::Event::KeyReleased:
      if (event.key.code < 0) break;
      key_down_[index(event.key.code)] = event.type == sf::Event::KeyPressed;
      key_latch_[index(event.key.code)] =
          key_latch_[index(event.key.code)] || key_down_[index(event.key.code)];
      break;
    case sf::Event::TextEntered:
      if (event.text.unicode >= 32 && event.text.unicode != 127)
        io.AddInputCharacter(event.text.unicode);
      break;
    case sf::Event::LostFocus:
      key_down_.fill(false);
      button_down_.fill(false);
      break;
    default:
      break;
  }
}

void PanelLayer::begin(float frame_s) {
  ImGuiIO& io = ImGui::GetIO();
  const sf::Vector2u size = window_.getSize();
  io.DisplaySize = {static_cast<float>(size.x) / scale_, static_cast<float>(size.y) / scale_};
  io.DisplayFramebufferScale = {scale_, scale_};
  io.DeltaTime = std::max(frame_s, 1e-4F);
  for (std::size_t k = 0; k < button_down_.size(); ++k)
    io.MouseDown[k] = button_down_[k] || button_latch_[k];
  for (std::size_t k = 0; k < key_down_.size(); ++k) io.KeysDown[k] = key_down_[k] || key_latch_[k];
  button_latch_.fill(false);
  key_latch_.fill(false);
  using K = sf::Keyboard;
  // A key that was pressed and let go since the frame before counts, and so does what was held to
  // it.
  const auto down = [&](K::Key left, K::Key right) {
    return io.KeysDown[index(left)] || io.KeysDown[index(right)];
  };
  io.KeyCtrl = down(K::LControl, K::RControl);
  io.KeyShift = down(K::LShift, K::RShift);
  io.KeyAlt = down(K::LAlt, K::RAlt);
  ImGui_ImplOpenGL3_NewFrame();
  ImGui::NewFrame();
}

bool PanelLayer::close_popups() {
  if (ImGui::GetCurrentContext()->OpenPopupStack.empty()) return false;
  ImGui::ClosePopupToLevel(0, true);
  ImGui::ClearActiveID();  // of a field that was in one of them
  return true;
}

bool PanelLayer::takes_pointer(sf::Vector2f at) const {
  const ImGuiContext& context = *ImGui::GetCurrentContext();
  if (context.ActiveId != 0 || !context.OpenPopupStack.empty()) return true;
  for (const ImGuiWindow* window : context.Windows) {
    const bool is_there =
        window->WasActive && !window->Hidden && (window->Flags & ImGuiWindowFlags_NoInputs) == 0;
    if (is_there && window->Rect().Contains({at.x, at.y}) && !window->IsFallbackWindow) return true;
  }
  return false;
}

void PanelLayer::let_keys_choose(bool fields) {
  ImGuiConfigFlags& flags = ImGui::GetIO().ConfigFlags;
  if (fields)
    flags |= ImGuiConfigFlags_NavEnableKeyboard;
  else
    flags &= ~ImGuiConfigFlags_NavEnableKeyboard;
}

void PanelLayer::draw() {
  ImGui::Render();
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  window_.resetGLStates();
}

}  // namespace sixty::gui
