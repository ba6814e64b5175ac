#pragma once
// What the relay is compared with. Both print `port N`, answer `stat` on their standard input with one line of what
// they have done, and end with their input. The net server is server/net with the least a hall could be;
// the floor is an epoll loop of recv() and send() and nothing more, so it shows what the system calls alone cost.
namespace vh::bench
{

enum class Transport { plain, tls };

int runNetServer(Transport transport);
int runFloorServer();

} // namespace vh::bench
