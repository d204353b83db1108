// SHA-256 (FIPS 180-4), for revisions of jobs and for entity tags: two different contents must never share
// one.
#pragma once

#include <string>
#include <string_view>

namespace lapwright::serve {

// The first 128 bits as 32 hexadecimal digits: enough that no two contents ever meet.
std::string revision_of(std::string_view bytes);

}  // namespace lapwright::serve
