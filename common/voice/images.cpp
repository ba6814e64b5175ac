#include "common/voice/images.h"

#include "common/signal/biquad.h"

#include <algorithm>
#include <cmath>

namespace vh::voice
{

namespace
{

constexpr double kSpeedOfSound = 343; // m/s, at 20 degrees
/// All reflections of the model are positive, which heaps up at 0 Hz; Allen and Berkley cut below 100 Hz, too.
constexpr double kLowCutHz = 80;
constexpr int kTrials = 4;

/// Along one axis: places of the images relative to the microphone, and how often each was reflected.
struct AxisImage {
    double metres = 0;
    int reflections = 0;
};

std::vector<AxisImage> imagesAlong(double size, double source, double microphone, double farthest)
{
    std::vector<AxisImage> images;
    const int most = static_cast<int>(std::ceil(farthest / (2 * size))) + 1;
    for (int n = -most; n <= most; ++n) {
        // Allen and Berkley, eq. 9 and 10: images at +-source + 2 n size.
        images.push_back({source + 2 * n * size - microphone, std::abs(2 * n)});
        images.push_back({-source + 2 * n * size - microphone, std::abs(n - 1) + std::abs(n)});
    }
    return images;
}

/// The microphone stands off the middle, a little above a table; the mouth is `distance` away, along the room.
struct Places {
    std::array<double, 3> microphone{};
    std::array<double, 3> mouth{};
};

Places placesIn(const Room& room)
{
    Places places;
    const double x = room.sizeMetres[0];
    const double reach = std::min(room.distanceMetres, x - 0.4);
    places.microphone = {(x - reach) * 0.45, room.sizeMetres[1] * 0.43, room.sizeMetres[2] * 0.42};
    places.mouth = places.microphone;
    places.mouth[0] += reach;
    return places;
}

std::vector<float> withoutHeap(std::vector<float> response)
{
    Biquad lowCut(butterworthHighPass(kLowCutHz, kRateHz));
    for (float& sample : response)
        sample = static_cast<float>(lowCut.push(sample));
    return response;
}

} // namespace

double eyringReflection(const Room& room)
{
    const auto [x, y, z] = room.sizeMetres;
    const double surface = 2 * (x * y + y * z + z * x);
    const double absorption =
        1 - std::exp(-24 * std::log(10.0) / kSpeedOfSound * x * y * z / (surface * room.rt60Seconds));
    return std::sqrt(1 - absorption);
}

std::vector<float> imageResponse(const Room& room, double reflection, std::size_t length)
{
    const Places places = placesIn(room);
    const double farthest = static_cast<double>(length) / kRateHz * kSpeedOfSound;
    std::array<std::vector<AxisImage>, 3> axes;
    for (std::size_t axis = 0; axis < 3; ++axis)
        axes[axis] = imagesAlong(room.sizeMetres[axis], places.mouth[axis], places.microphone[axis], farthest);
    std::vector<double> powers{1};
    while (powers.size() < 3000)
        powers.push_back(powers.back() * reflection);

    std::vector<float> response(length);
    for (const AxisImage& x : axes[0])
        for (const AxisImage& y : axes[1]) {
            const double flat = x.metres * x.metres + y.metres * y.metres;
            if (flat > farthest * farthest)
                continue;
            const int flatReflections = x.reflections + y.reflections;
            for (const AxisImage& z : axes[2]) {
                const double metres = std::sqrt(flat + z.metres * z.metres);
                const auto at = static_cast<std::size_t>(std::lround(metres / kSpeedOfSound * kRateHz));
                const auto reflections = static_cast<std::size_t>(flatReflections + z.reflections);
                if (at < length && reflections < powers.size())
                    response[at] += static_cast<float>(powers[reflections] * kReferenceMetres / std::max(metres, 0.05));
            }
        }
    return response;
}

double decaySeconds(const std::vector<float>& response)
{
    std::vector<double> energy(response.size() + 1);
    for (std::size_t i = response.size(); i-- > 0;)
        energy[i] = energy[i + 1] + static_cast<double>(response[i]) * response[i];
    // A straight line by least squares through the level from -5 to -25 dB.
    double n = 0, st = 0, sl = 0, stt = 0, stl = 0;
    for (std::size_t i = 0; i < response.size(); ++i) {
        const double level = 10 * std::log10(energy[i] / energy[0]);
        if (level > -5)
            continue;
        if (level < -25)
            break;
        const double t = static_cast<double>(i) / kRateHz;
        n += 1;
        st += t;
        sl += level;
        stt += t * t;
        stl += t * level;
    }
    const double slope = (n * stl - st * sl) / (n * stt - st * st);
    return -60 / slope;
}

/// Small rooms of this model ring longer than Eyring's formula says (sound along the floor meets fewer walls), so the
/// absorption is corrected until the measured decay is the one asked for.
std::vector<float> impulseResponse(const Room& room)
{
    const auto direct = static_cast<std::size_t>(room.distanceMetres / kSpeedOfSound * kRateHz);
    if (room.rt60Seconds <= 0)
        return imageResponse(room, 0, direct + 2);
    const double rt60 = std::min(room.rt60Seconds, 1.2);
    const auto length = direct + static_cast<std::size_t>(rt60 * kRateHz);
    double absorption = 1 - std::pow(eyringReflection(room), 2);
    std::vector<float> response;
    for (int trial = 0; trial < kTrials; ++trial) {
        response = withoutHeap(imageResponse(room, std::sqrt(1 - absorption), length));
        const double found = decaySeconds(response);
        if (std::abs(found / rt60 - 1) < 0.02)
            break;
        // The decay goes as -1 / ln(1 - absorption).
        absorption = 1 - std::pow(1 - absorption, found / rt60);
    }
    return response;
}

} // namespace vh::voice
