#include "app/join/advice.h"

#include <QCoreApplication>

namespace vh::join
{

namespace
{

QString tr(const char* source)
{
    return QCoreApplication::translate("vh::join::advice", source);
}

} // namespace

QString adviceOn(Blank reason)
{
    switch (reason) {
    case Blank::none:
        return {};
    case Blank::noSignal:
        return tr("Please see whether the microphone is plugged in and switched on.");
    case Blank::clipping:
        return tr("Please move back a little from the microphone, or turn it down in the sound settings.");
    case Blank::roomTooNoisy:
        return tr("Please switch off what hums or plays, or come a little nearer to the microphone.");
    case Blank::loudspeakerTooLoud:
        return tr("Please turn the loudspeaker down a little, or put on headphones.");
    case Blank::alteredByComputer:
        return tr("Please switch off noise removal for the microphone in the sound settings.");
    case Blank::somebodyElse:
        return tr("Please switch the television off, or ask those beside you to be quiet while you speak.");
    case Blank::setupChanged:
        return tr("Something about the microphone is different. A short check makes it right.");
    }
    return {};
}

} // namespace vh::join
