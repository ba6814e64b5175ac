#pragma once
// Which sound to listen to. Values, any thread.
#include <QByteArray>
#include <QString>

namespace vh::sound
{

/// How the sound of a file comes: as a microphone's would, or as fast as somebody moves the clock (advance()). A home
/// moves it in the mic check and in turns in which the person is asked to speak: a file does not know when to be
/// silent.
enum class Pace { realTime, byHand };

struct DeviceChoice {
    enum class Kind { standard, device, file, none };
    Kind kind = Kind::standard;
    QByteArray id; ///< of the device, where kind is device
    QString file;  ///< where kind is file
    Pace pace = Pace::realTime;

    static DeviceChoice standardDevice() { return {}; }
    static DeviceChoice deviceOf(QByteArray id) { return {Kind::device, std::move(id), {}, Pace::realTime}; }
    static DeviceChoice fileOf(QString path, Pace pace = Pace::realTime)
    {
        return {Kind::file, {}, std::move(path), pace};
    }
    static DeviceChoice nothing() { return {Kind::none, {}, {}, Pace::realTime}; }
    friend bool operator==(const DeviceChoice&, const DeviceChoice&) = default;
};

/// A microphone as a person chooses it.
struct DeviceInfo {
    QByteArray id;
    QString name;
    bool standard = false;
    friend bool operator==(const DeviceInfo&, const DeviceInfo&) = default;
};

} // namespace vh::sound
