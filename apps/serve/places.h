// Where things are when nobody says.
#pragma once

#include <string>

namespace lapwright::serve {

// $XDG_DATA_HOME/lapwright/jobs, or the same below ~/.local/share; empty when neither is known.
std::string usual_jobs_folder();

// The page's folder beside the program ("page"), where an installation has it ("../share/lapwright/page"), or
// where the build leaves it; empty when none holds a page.
std::string usual_page_folder();

}  // namespace lapwright::serve
