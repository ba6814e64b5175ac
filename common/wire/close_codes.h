#pragma once
// Close codes of our own (RFC 6455 section 7.4.2), beside the standard ones of ws_frame.h. After the first four there
// is no use in coming again by oneself; after the last there is, a little later.
#include "common/wire/ws_frame.h"

namespace vh::wire
{

inline constexpr auto kCloseAnotherDevice = static_cast<CloseCode>(4001);
inline constexpr auto kCloseRevoked = static_cast<CloseCode>(4002);
inline constexpr auto kCloseTurnedAway = static_cast<CloseCode>(4003);
inline constexpr auto kCloseNotKnown = static_cast<CloseCode>(4004);
inline constexpr auto kCloseTryLater = static_cast<CloseCode>(4005);

} // namespace vh::wire
