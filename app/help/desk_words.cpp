#include "app/help/desk_words.h"

#include <QCoreApplication>

#include <array>

namespace vh::help
{

using wire::DeskState;

namespace
{

constexpr std::size_t kDealtWithKept = 300;

QString words(const char* text)
{
    return QCoreApplication::translate("vh::help::DeskWords", text);
}

QString nameOrSomebody(const std::string& name)
{
    return name.empty() ? words("Somebody") : QString::fromStdString(name);
}

WordRow rowOf(const wire::DeskItem& item)
{
    WordRow row;
    row.item = item.item;
    row.change = item.change;
    row.person = item.person;
    row.name = nameOrSomebody(item.name);
    row.text = QString::fromStdString(item.text);
    row.at = item.at;
    row.state = item.state;
    row.by = QString::fromStdString(item.by);
    row.due = item.due;
    row.isPicture = item.kind == wire::ItemKind::picture;
    return row;
}

/// What is with others: a clinician first, then the leader; what is going up comes and goes at the end.
std::optional<std::uint64_t> orderInHand(const wire::DeskItem& item)
{
    constexpr std::uint64_t kGroup = std::uint64_t{1} << 62U;
    switch (item.state) {
    case DeskState::withClinician:
        return item.item;
    case DeskState::withLeader:
    case DeskState::forWindow:
        return kGroup + item.item;
    case DeskState::goingUp:
        return 2 * kGroup + item.item;
    default:
        return std::nullopt;
    }
}

DeskState stateAfter(wire::Decision decision)
{
    switch (decision) {
    case wire::Decision::show:
        return DeskState::goingUp;
    case wire::Decision::setAside:
        return DeskState::setAside;
    case wire::Decision::forLeader:
        return DeskState::withLeader;
    case wire::Decision::clinician:
        return DeskState::withClinician;
    case wire::Decision::forWindow:
        return DeskState::forWindow;
    case wire::Decision::hold:
        break;
    }
    return DeskState::held;
}

} // namespace

DeskWords::DeskWords()
    : m_toRead(std::make_unique<WordsModel>()), m_inHand(std::make_unique<WordsModel>()),
      m_board(std::make_unique<WordsModel>())
{
    m_board->setIsBoard();
}

void DeskWords::take(const wire::Welcome& welcome)
{
    m_own = welcome.name;
    for (const auto& model : {m_toRead.get(), m_inHand.get(), m_board.get()})
        model->setOwn(QString::fromStdString(m_own));
    if (welcome.board.size() >= wire::kBoardTail) // more may have changed than it can say
        while (!m_board->rows().empty())
            m_board->remove(m_board->rows().front().item);
    for (const wire::BoardItem& item : welcome.board)
        addToBoard(item);
}

void DeskWords::take(const wire::OnDesk& message)
{
    if (message.whole) {
        m_unsaid.clear();
        for (const auto& model : {m_toRead.get(), m_inHand.get()})
            for (const WordRow& row : model->rows())
                m_unsaid.insert(row.item);
        for (const std::uint64_t item : m_unsaid) // claims are said again, too
            m_toRead->setReadBy(item, {});
    }
    for (const wire::DeskItem& item : message.items)
        take(item);
}

void DeskWords::take(const wire::DeskItem& item)
{
    m_unsaid.erase(item.item);
    const WordRow row = rowOf(item);
    // In the list of what is to read a line keeps its place when it has been dealt with, and says so.
    if (item.state == DeskState::held || m_toRead->rowOf(item.item) >= 0)
        m_toRead->put(row, item.item);
    if (const auto order = orderInHand(item))
        m_inHand->put(row, *order);
    else
        m_inHand->remove(item.item);
    if (item.state == DeskState::setAside || item.state == DeskState::seenTo || item.state == DeskState::shown)
        remember(row);
    else
        m_dealtWith.erase(item.item);
}

void DeskWords::remember(WordRow row)
{
    const std::uint64_t item = row.item;
    m_dealtWith[item] = std::move(row);
    if (m_dealtWith.size() > kDealtWithKept)
        m_dealtWith.erase(m_dealtWith.begin());
}

void DeskWords::allIsSaid()
{
    for (const std::uint64_t item : m_unsaid) {
        m_toRead->remove(item);
        m_inHand->remove(item);
    }
    m_unsaid.clear();
}

void DeskWords::take(const wire::Board& message)
{
    for (const wire::BoardItem& item : message.items)
        addToBoard(item);
}

void DeskWords::addToBoard(const wire::BoardItem& item)
{
    if (item.gone)
        return m_board->remove(item.item);
    WordRow row;
    row.item = item.item;
    row.change = item.change;
    row.isNotice = item.kind == wire::ItemKind::notice;
    row.isPicture = item.kind == wire::ItemKind::picture;
    row.name = row.isNotice ? words("From the desk") : nameOrSomebody(item.name);
    row.text = QString::fromStdString(item.text);
    row.at = item.at;
    row.isPicture = item.kind == wire::ItemKind::picture;
    row.state = DeskState::shown;
    if (const auto known = m_dealtWith.find(item.item); known != m_dealtWith.end())
        row.person = known->second.person; // the board does not say whose it is
    m_board->put(std::move(row), item.change);
    while (m_board->rows().size() > wire::kBoardTail)
        m_board->remove(m_board->rows().front().item);
}

void DeskWords::take(const wire::Claimed& message)
{
    m_toRead->setReadBy(message.item, message.by == m_own ? QString() : QString::fromStdString(message.by));
}

void DeskWords::setNow(Instant now)
{
    for (const auto& model : {m_toRead.get(), m_inHand.get(), m_board.get()})
        model->setNow(now);
}

void DeskWords::setOnItsWay(std::uint64_t item, bool is)
{
    for (const auto& model : {m_toRead.get(), m_inHand.get(), m_board.get()})
        model->setOnItsWay(item, is);
}

void DeskWords::setPicture(std::uint64_t item, const QImage& picture)
{
    for (const auto& model : {m_toRead.get(), m_inHand.get(), m_board.get()})
        model->setPicture(item, picture);
}

const WordRow* DeskWords::find(std::uint64_t item) const
{
    for (const auto& model : {m_toRead.get(), m_inHand.get(), m_board.get()})
        if (const WordRow* row = model->find(item))
            return row;
    const auto found = m_dealtWith.find(item);
    return found == m_dealtWith.end() ? nullptr : &found->second;
}

std::optional<wire::Decide> DeskWords::decide(std::uint64_t item, wire::Decision decision) const
{
    const WordRow* row = find(item);
    const DeskState after = stateAfter(decision);
    if (!row || row->isNotice || row->state == after || (after == DeskState::goingUp && row->state == DeskState::shown))
        return std::nullopt;
    return wire::Decide{{}, item, row->change, decision};
}

} // namespace vh::help
