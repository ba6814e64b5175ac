#include "app/lead/desk_news.h"

#include "app/people/act_words.h"

#include <QCoreApplication>

#include <algorithm>

namespace vh::lead
{

using wire::DeskState;

namespace
{

/// A line that has just come into the place of the one before is not taken by a second press of the same key.
constexpr Millis kReadFirst{1'000};

bool isHers(const wire::DeskItem& item)
{
    return item.state == DeskState::withLeader || item.state == DeskState::withClinician;
}

/// Of a picture its caption; the picture itself stands at the desk.
QString wordsOf(const wire::DeskItem& item)
{
    QString text = QString::fromStdString(item.text);
    if (item.kind != wire::ItemKind::picture)
        return text;
    return text.isEmpty() ? QCoreApplication::translate("vh::lead::DeskNews", "a picture")
                          : QCoreApplication::translate("vh::lead::DeskNews", "a picture: %1").arg(text);
}

} // namespace

void DeskNews::take(const wire::OnDesk& desk)
{
    if (desk.whole) {
        m_items.clear();
        m_whole = false; // the rest comes in further messages, and then `deskNow`
    }
    for (const wire::DeskItem& item : desk.items) {
        if (isHers(item))
            m_items[item.item] = item;
        else
            m_items.erase(item.item);
    }
    arrange();
}

void DeskNews::take(const wire::DeskNow& now)
{
    m_boardOpen = now.boardOpen;
    m_levels = now.levels;
    m_whole = true;
    arrange();
}

void DeskNews::take(const wire::Acts& acts)
{
    m_acts.emplace();
    m_acts->reserve(acts.acts.size());
    for (const wire::Act& act : acts.acts)
        m_acts->push_back({actTime(act), actWords(act), actDetail(act)});
}

bool DeskNews::isWith(std::uint64_t item, DeskState state) const
{
    const auto found = m_items.find(item);
    return found != m_items.end() && found->second.state == state;
}

DeskLine* DeskNews::placeOf(std::uint64_t item)
{
    auto* const found = std::ranges::find(m_places, item, &DeskLine::item);
    return item != 0 && found != m_places.end() ? found : nullptr;
}

/// What needs a clinician, in the order in which it came: the one before her stays the first. What she has taken goes.
void DeskNews::arrange()
{
    if (!m_whole)
        return;
    std::erase_if(m_clinician, [&](std::uint64_t item) { return !isWith(item, DeskState::withClinician); });
    for (const auto& [id, item] : m_items)
        if (item.state == DeskState::withClinician && std::ranges::count(m_clinician, id) == 0)
            m_clinician.push_back(id);
    for (DeskLine& place : m_places)
        if (m_taking.contains(place.item) && !m_items.contains(place.item))
            place = {};
    std::erase_if(m_taking, [&](std::uint64_t item) { return !m_items.contains(item); });
}

void DeskNews::follow(const Turn& turn, bool covered, Instant now)
{
    const bool uncovered = m_covered && !covered;
    m_covered = covered;
    if (covered)
        close();
    const std::uint64_t first = m_clinician.empty() ? 0 : m_clinician.front();
    if (first != m_first || uncovered)
        m_firstSince = now;
    m_first = first;
    const bool may = turn.calm || turn.serial != m_turn.serial;
    m_turn = turn;
    if (!may || !m_whole)
        return;
    for (DeskLine& place : m_places)
        if (!isWith(place.item, DeskState::withLeader))
            place = {};
    for (const auto& [id, item] : m_items) {
        if (item.state != DeskState::withLeader || placeOf(id))
            continue;
        if (auto* free = std::ranges::find(m_places, std::uint64_t{0}, &DeskLine::item); free != m_places.end())
            *free = line(id);
    }
}

std::optional<wire::TakeItem> DeskNews::takeItem(std::uint64_t item, Instant now)
{
    const bool question = placeOf(item) != nullptr;
    const bool clinician = item == m_first ? now - m_firstSince >= kReadFirst
                                           : m_sheet == Sheet::desk && std::ranges::count(m_clinician, item) > 0;
    if (item == 0 || m_covered || (!question && !clinician) || !m_taking.insert(item).second)
        return {};
    return wire::TakeItem{{}, item};
}

bool DeskNews::takeAnswered(std::uint64_t item, const Error* error)
{
    if (!error)
        return false; // it goes with the message that says what has become of it
    m_taking.erase(item);
    if (error->code != "item-unknown")
        return true;
    if (DeskLine* place = placeOf(item)) // it went meanwhile
        *place = {};
    return false;
}

void DeskNews::open(Sheet sheet)
{
    m_sheet = m_covered ? Sheet::none : sheet;
    ++m_opened;
}

void DeskNews::showDesk()
{
    if (m_sheet != Sheet::none)
        return close();
    open(Sheet::desk);
}

void DeskNews::showActs()
{
    m_acts.reset(); // it is asked for anew
    open(Sheet::acts);
}

DeskLine DeskNews::line(std::uint64_t item) const
{
    const auto found = m_items.find(item);
    if (found == m_items.end())
        return {};
    return {item, QString::fromStdString(found->second.name), wordsOf(found->second), false};
}

bool DeskNews::waitsForClinician() const
{
    return !m_clinician.empty();
}

DeskNewsView DeskNews::view(bool classOpen) const
{
    DeskNewsView view;
    view.opened = m_opened;
    view.boardOpen = m_boardOpen;
    view.levels = m_levels;
    view.levelsOffered = classOpen;
    if (m_covered)
        return view;
    view.places = m_places;
    view.clinician.reserve(m_clinician.size());
    for (const std::uint64_t item : m_clinician)
        view.clinician.push_back(line(item));
    for (DeskLine& place : view.places)
        place.taking = m_taking.contains(place.item);
    for (DeskLine& each : view.clinician)
        each.taking = m_taking.contains(each.item);
    view.sheet = m_sheet;
    view.actsCame = m_acts.has_value();
    if (m_sheet == Sheet::acts && m_acts)
        view.acts = *m_acts;
    return view;
}

} // namespace vh::lead
