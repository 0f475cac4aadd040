#include "gui/console/page.hpp"

namespace zeroline::console {

records::PageMaker page_maker() { return {}; }

TextPageMaker text_page_maker() { return {}; }

} // namespace zeroline::console
