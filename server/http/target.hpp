#pragma once

#include <map>
#include <string>
#include <string_view>

namespace brakewright::http {

struct Target {
  std::string path;
  std::map<std::string, std::string> query;
};

/// Reads the target of a request line, "/jobs/12?words=red%20saloon" (RFC 9112, origin form).
/// Percent signs are resolved once; "+" is a blank in the query alone, as pages write it.
/// @throws Refusal 400 "bad_target"  for anything that is not that: no leading "/", half an escape, bytes that are not
///         UTF-8, control characters, a "/" or "\" hidden in an escape, segments "." and "..", a query name that
///         stands twice
Target parse_target(std::string_view target);

/// Whether the bytes are UTF-8 (RFC 3629: no surrogates, nothing overlong, nothing above U+10FFFF).
bool is_utf8(std::string_view bytes);

}  // namespace brakewright::http
