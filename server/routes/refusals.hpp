#pragma once

#include <functional>

#include "server/http/message.hpp"

namespace brakewright::server {

/// Runs `work` and turns what the shop refuses into the answer that the API describes: 422 for input that the giver
/// can mend (with `doubts` for a reading that looks wrong), 404 for what is not there, 409 for a rule of the shop or a
/// change meanwhile (with `current`), 503 when the medium of the store fails. Anything else goes through.
http::Response with_refusals(const std::function<http::Response()>& work);

}  // namespace brakewright::server
