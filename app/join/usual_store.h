#pragma once
// The usual levels of this installation: per person, device and task. They never leave this computer. Kept in
// usual-levels.json in the profile's folder. GUI thread. A file that cannot be read counts as empty: the next mic check
// finds the levels again.
#include "common/base/id.h"
#include "common/echo/echo_path.h"
#include "common/home/calibration.h"
#include "common/measure/usual_level.h"

#include <QByteArray>
#include <QString>

#include <map>
#include <optional>

namespace vh::join
{

class UsualStore
{
public:
    struct Spot {
        std::map<TaskKind, UsualLevel> usuals;
        float roomDbfsA = -120;
        int people = 1;                         ///< who speak at this computer
        std::optional<EchoPath> path;           ///< from the loudspeaker to the microphone, as it was learnt last
        std::optional<Calibration> calibration; ///< for this input volume only
        float inputVolume = -1;                 ///< of the device when it was checked; -1: the system does not say
    };

    explicit UsualStore(const QString& folder);
    [[nodiscard]] std::optional<Spot> find(PersonId person, const QByteArray& device) const;
    bool keep(PersonId person, const QByteArray& device, const Spot& spot);

private:
    [[nodiscard]] static std::string keyOf(PersonId person, const QByteArray& device);
    QString m_path;
    std::map<std::string, Spot> m_spots;
};

} // namespace vh::join
