#pragma once
// The relay's numbers as Prometheus text (exposition format 0.0.4). Pure: values in, text out. Nothing about persons.
#include "server/net/counters.h"
#include "server/photos/picture_maker.h"
#include "server/store/store.h"

#include <string>

namespace vh::ops
{

struct Numbers {
    net::Counters net; ///< of all loops, added up
    store::StoreStats store;
    photos::PictureMaker::Counts pictures;
    std::size_t halls = 0;
};

net::Counters operator+(const net::Counters& a, const net::Counters& b);
std::string prometheusText(const Numbers& numbers);

} // namespace vh::ops
