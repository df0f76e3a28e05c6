#pragma once

namespace sixty::gui {

/// What the calling thread does from now on waits for whoever else wants the processor: nobody
/// stands before the window and waits for it.
void stay_behind();

}  // namespace sixty::gui
