#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "server/routes/call.hpp"
#include "shop/shop.hpp"

/// Who may do what once the doors are closed.
namespace brakewright::server {

/// What the school says of somebody who does not lead. A rule that is absent allows.
struct SchoolRules {
  /// Whether a person may work at the lathe on a job: their permit stands, or a teacher signed that they stand by.
  std::function<bool(const shop::Uuid& person_id, const shop::Uuid& job_id)> may_cut;
  std::function<bool(const shop::Uuid& study_id)> is_closed;  ///< a study, so that its answer leads nobody's hand
};

/// Holds a call to the right of its operation and to what it contains: shop-wide rules stand in shop/, these here are
/// about who asks. @param who  in whose name it is done, the signer where somebody signed for it
/// @throws http::Refusal 403 "needs_teacher", "needs_permit", "not_yours", "not_closed", "visitor" with who can; what
///         reading the call throws
void hold_to_rights(const Described& operation, const Call& call, const shop::Person& who, shop::Shop& shop,
                    const SchoolRules& school);

}  // namespace brakewright::server
