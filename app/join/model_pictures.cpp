// Pictures that people send, as the participant's model has them: the one that the leader shows to all.
#include "app/join/join_model.h"

#include <QCoreApplication>

namespace vh::join
{

void JoinModel::picturesAre(const pictures::ShownPicture& shown, std::size_t onTheirWay)
{
    m_shown = shown;
    m_picturesOnTheirWay = onTheirWay;
}

Wishes JoinModel::agreeToPictures()
{
    setAgreement(AgreementKind::pictures, "yes");
    return {{Wish::Kind::agree, AgreementKind::pictures, "yes"}};
}

/// Only while nobody is asked to speak: the relay takes it away with the leader's next move, and the clock may be
/// quicker than she is.
bool JoinModel::mayShowPicture(const link::ClassFollow* follow) const
{
    const auto at = follow ? follow->turn() : std::nullopt;
    if (!at || isBefore(follow) || follow->place()->phase != Phase::running)
        return true;
    const SectionKind section = at->section->kind;
    if (section == SectionKind::pause || section == SectionKind::openTalk)
        return true;
    const auto heard = cuedTurn(); // the cue may be behind the text
    const TurnKind kind = heard ? heard->turn->kind : at->turn->kind;
    const bool listens = kind == TurnKind::listen && at->turn->kind == TurnKind::listen;
    return listens || follow->turnLeft() <= Millis{0};
}

/// In the place of the text; the cue stays where it is, unless its turn is over.
void JoinModel::describePicture(ClassView& view, const link::ClassFollow* follow) const
{
    if (!m_shown.isShown() || m_line != link::LineState::in || !mayShowPicture(follow))
        return;
    const auto at = follow ? follow->turn() : std::nullopt;
    const bool over = at && at->section->kind != SectionKind::pause && follow->turnLeft() <= Millis{0};
    const auto tr = [](const char* source) { return QCoreApplication::translate("vh::join::JoinModel", source); };
    if (over || isBefore(follow))
        view.sheet.cue = {std::nullopt, false, tr("A picture")};
    view.calm = false;
    view.showMeter = false;
    view.sheet.text = {};
    view.sheet.picture = m_shown.picture;
    view.sheet.caption = m_shown.caption;
    view.sheet.pictureDescription =
        m_shown.caption.isEmpty() ? tr("A picture") : tr("A picture. %1").arg(m_shown.caption);
    if (m_shown.picture.isNull()) {
        view.sheet.text.text = m_shown.words.toStdString();
        view.sheet.text.limits = kHomeText;
    }
}

} // namespace vh::join
