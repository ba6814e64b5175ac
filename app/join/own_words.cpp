// How one's own lines and pictures stand, as the relay tells their author alone.
#include "app/join/words_here.h"

#include <QCoreApplication>

#include <algorithm>
#include <utility>

namespace vh::join
{

namespace
{

QString tr(const char* source)
{
    return QCoreApplication::translate("vh::join::WordsHere", source);
}

Stand standOf(wire::OwnState state)
{
    switch (state) {
    case wire::OwnState::toRead:
        return Stand::toRead;
    case wire::OwnState::withLeader:
        return Stand::withLeader;
    case wire::OwnState::read:
        return Stand::read;
    case wire::OwnState::gone:
        break;
    }
    return Stand::takenBack;
}

} // namespace

void WordsHere::take(const wire::OwnNow& own)
{
    for (const wire::OwnLine& each : own.lines) {
        BoardLine* line = mine(each.item);
        if (!line) {
            if (each.state == wire::OwnState::gone || each.state == wire::OwnState::read)
                continue; // of an earlier time, and nothing more becomes of it
            BoardLine made;
            made.item = each.item;
            made.text = QString::fromStdString(each.text);
            made.stand = standOf(each.state);
            made.isPicture = each.kind == wire::ItemKind::picture;
            made.picture = each.picture;
            add(std::move(made));
            continue;
        }
        if (line->stand == Stand::takenBack)
            continue;
        if (line->isPicture) { // changed at the desk
            line->text = QString::fromStdString(each.text);
            line->picture = each.picture;
        }
        const Stand before = std::exchange(line->stand, standOf(each.state));
        if (before == Stand::offBoard && line->stand == Stand::read)
            line->stand = Stand::offBoard;
        if (line->stand == before)
            continue;
        if (line->stand == Stand::withLeader)
            say(line->isPicture ? tr("Your picture is with the leader.") : tr("Your line is with the leader."));
        else if (line->stand == Stand::read)
            say(line->isPicture ? tr("A helper has looked at your picture.") : tr("A helper has read your line."));
    }
}

void WordsHere::pictureSent()
{
    say(tr("A helper has your picture, and looks at it first."));
}

void WordsHere::pictureRefused(const QString& why)
{
    say(why, true);
}

const BoardLine* WordsHere::line(std::uint64_t key) const
{
    const auto found = std::find_if(m_lines.begin(), m_lines.end(), [&](const auto& each) { return each.key == key; });
    return found == m_lines.end() ? nullptr : &*found;
}

} // namespace vh::join
