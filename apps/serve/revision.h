// What tells one content from another: revisions of jobs and entity tags of the page's files.
#pragma once

#include <string>
#include <string_view>

namespace lapwright::serve {

// 128 bits of XXH3 as 32 hexadecimal digits: no two contents meet by chance. Whoever sets out to can make two
// that do, but may write the jobs anyway.
std::string revision_of(std::string_view bytes);

}  // namespace lapwright::serve
