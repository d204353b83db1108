// A picture for a screen as a document.
#pragma once

#include <lapwright/engine/engine.h>
#include <lapwright/sheets/sheets.h>

namespace lapwright::engine {

// Its ink is `currentColor` and its paper `var(--paper)`, so that a page's own colours reach it.
Document on_screen(const sheets::ScreenPicture& picture);

}  // namespace lapwright::engine
