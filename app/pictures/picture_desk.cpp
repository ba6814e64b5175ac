#include "app/pictures/picture_desk.h"

namespace vh::pictures
{

namespace
{

wire::Decision decisionOf(Becomes what)
{
    switch (what) {
    case Becomes::board:
        return wire::Decision::show;
    case Becomes::aside:
        return wire::Decision::setAside;
    case Becomes::window:
        break;
    }
    return wire::Decision::forWindow;
}

/// What one look takes in.
QString glanceAt(const std::string& name)
{
    constexpr qsizetype kMost = 20;
    const QString whole = QString::fromStdString(name);
    return whole.size() <= kMost ? whole : whole.left(kMost - 1).trimmed() + QChar(0x2026);
}

QString stateWords(const wire::DeskItem& item)
{
    const QString by = glanceAt(item.by);
    switch (item.state) {
    case wire::DeskState::held:
        return {};
    case wire::DeskState::shown:
        return PictureDesk::tr("On the board");
    case wire::DeskState::goingUp:
        return PictureDesk::tr("Going onto the board");
    case wire::DeskState::setAside:
        return by.isEmpty() ? PictureDesk::tr("Set aside") : PictureDesk::tr("Set aside by %1").arg(by);
    case wire::DeskState::forWindow:
        return PictureDesk::tr("With the leader, for the group's window");
    case wire::DeskState::withLeader:
    case wire::DeskState::withClinician:
        return PictureDesk::tr("With the leader");
    case wire::DeskState::seenTo:
        break;
    }
    return PictureDesk::tr("Seen to");
}

QString agoWords(Millis age)
{
    const auto minutes = std::chrono::duration_cast<std::chrono::minutes>(age).count();
    return minutes < 1         ? PictureDesk::tr("just now")
           : minutes < 60      ? PictureDesk::tr("%1 min ago").arg(minutes)
           : minutes < 48 * 60 ? PictureDesk::tr("%1 h ago").arg(minutes / 60)
                               : PictureDesk::tr("%1 days ago").arg(minutes / 60 / 24);
}

} // namespace

PictureDesk::PictureDesk(link::Line& line, PictureShelf& shelf, QObject* parent)
    : QObject(parent), m_line(line), m_shelf(shelf)
{
    connect(&line, &link::Line::received, this, &PictureDesk::take);
    connect(&line, &link::Line::answered, this,
            [this](const RequestId& id, const wire::Ack&, const Error* error) { answered(id, error); });
    connect(&shelf, &PictureShelf::arrived, this, &PictureDesk::changed);
    connect(&shelf, &PictureShelf::withheld, this, &PictureDesk::changed);
}

void PictureDesk::bind(const PictureSheet& sheet)
{
    using Step = EditDraft::Step;
    connect(&sheet, &PictureSheet::turnRequested, this, [this](int quarters) {
        if (const Picture* picture = shown())
            change(turned(picture->draft.now(), quarters), Step::anew);
    });
    connect(&sheet, &PictureSheet::frameRequested, this, [this](const QRectF& frame) {
        if (const Picture* picture = shown())
            change(withFrame(picture->draft.now(), frame), Step::goesOn);
    });
    connect(&sheet, &PictureSheet::captionRequested, this, [this](const QString& caption) {
        if (const Picture* picture = shown()) {
            PictureEdit edit = picture->draft.now();
            edit.caption = caption;
            change(edit, Step::goesOn);
        }
    });
    connect(&sheet, &PictureSheet::cutBegan, this, [this] { endStep(); });
    connect(&sheet, &PictureSheet::cutEnded, this, &PictureDesk::endCut);
    connect(&sheet, &PictureSheet::captionEnded, this, [this] { endStep(); });
    connect(&sheet, &PictureSheet::undoRequested, this, &PictureDesk::undo);
    connect(&sheet, &PictureSheet::becomesRequested, this, &PictureDesk::become);
    connect(&sheet, &PictureSheet::closeRequested, this, &PictureDesk::close);
}

PictureDesk::Picture* PictureDesk::shown()
{
    const auto found = m_pictures.find(m_open);
    return found == m_pictures.end() ? nullptr : &found->second;
}

const PictureDesk::Picture* PictureDesk::shown() const
{
    const auto found = m_pictures.find(m_open);
    return found == m_pictures.end() ? nullptr : &found->second;
}

std::vector<std::pair<std::uint64_t, QImage>> PictureDesk::smallOnes() const
{
    using State = wire::DeskState;
    std::vector<std::pair<std::uint64_t, QImage>> all;
    all.reserve(m_pictures.size());
    for (const auto& [id, picture] : m_pictures) {
        const State state = picture.item.state;
        if (state != State::held && state != State::goingUp && state != State::forWindow && id != m_open)
            continue;
        if (QImage image = m_shelf.small(picture.item.picture->hash); !image.isNull())
            all.emplace_back(id, std::move(image));
    }
    return all;
}

std::uint64_t PictureDesk::changeOf(std::uint64_t item) const
{
    const auto found = m_pictures.find(item);
    return found == m_pictures.end() ? 0 : found->second.item.change;
}

SheetView PictureDesk::view(Instant now) const
{
    SheetView view;
    const Picture* picture = shown();
    if (!picture)
        return view;
    const wire::DeskItem& item = picture->item;
    view.item = item.item;
    view.head = tr("From %1, %2").arg(glanceAt(item.name), agoWords(now - item.at));
    view.aside = stateWords(item);
    view.picture = m_shelf.picture(item.picture->hash);
    view.words = m_shelf.isWithheld(item.picture->hash) ? tr("This picture could not be fetched.")
                                                        : tr("The picture is on its way.");
    view.edit = picture->draft.now();
    view.canUndo = picture->draft.canUndo();
    view.busy = m_pending && m_pending->item == item.item;
    view.notice = view.busy ? tr("The picture is being made as you changed it.") : m_notice;
    return view;
}

void PictureDesk::openItem(quint64 item)
{
    if (!m_pictures.contains(item) || item == m_open)
        return;
    m_open = item;
    m_notice.clear();
    emit changed();
}

void PictureDesk::close()
{
    if (m_open == 0)
        return;
    endStep();
    m_open = 0;
    m_notice.clear();
    emit closed();
    emit changed();
}

void PictureDesk::endStep()
{
    if (Picture* picture = shown())
        picture->draft.endStep();
}

void PictureDesk::change(const PictureEdit& edit, EditDraft::Step step)
{
    Picture* picture = shown();
    if (!picture || (m_pending && m_pending->item == m_open))
        return;
    picture->draft.change(edit, step);
    m_notice.clear();
    emit changed();
}

void PictureDesk::endCut(bool kept)
{
    Picture* picture = shown();
    if (!picture)
        return;
    if (!kept && picture->draft.goesOn())
        picture->draft.undo();
    picture->draft.endStep();
    emit changed();
}

void PictureDesk::undo()
{
    if (Picture* picture = shown()) {
        picture->draft.undo();
        emit changed();
    }
}

void PictureDesk::become(Becomes what)
{
    Picture* picture = shown();
    if (!picture || m_pending)
        return;
    const wire::Decision decision = decisionOf(what);
    if (what == Becomes::aside || !picture->draft.isChanged()) { // nobody will see it as it was changed
        const quint64 item = m_open;
        close();
        emit decisionRequested(item, decision);
        return;
    }
    const PictureEdit& edit = picture->draft.now();
    wire::EditPicture message;
    message.item = picture->item.item;
    message.change = picture->item.change;
    message.quarterTurns = static_cast<std::uint32_t>(edit.quarterTurns);
    message.left = edit.cut.left(), message.top = edit.cut.top();
    message.right = edit.cut.right(), message.bottom = edit.cut.bottom();
    message.text = edit.caption.simplified().toStdString();
    m_notice.clear();
    m_pending = Pending{m_line.ask(message), message.item, message.change, decision, false};
    emit changed();
}

void PictureDesk::take(const wire::ToClient& message)
{
    const auto* desk = std::get_if<wire::OnDesk>(&message);
    if (!desk)
        return;
    if (desk->whole) // what is not in it any more is gone
        std::erase_if(m_pictures, [&](const auto& each) {
            return std::none_of(desk->items.begin(), desk->items.end(),
                                [&](const wire::DeskItem& item) { return item.item == each.first; });
        });
    for (const wire::DeskItem& item : desk->items)
        takeItem(item);
    if (m_open != 0 && !shown())
        close();
    settle();
    emit changed();
}

void PictureDesk::takeItem(const wire::DeskItem& item)
{
    if (item.kind != wire::ItemKind::picture)
        return;
    if (!item.picture) {
        m_pictures.erase(item.item);
        return;
    }
    const auto found = m_pictures.find(item.item);
    const bool own = m_pending && m_pending->item == item.item;
    if (found == m_pictures.end()) {
        m_pictures.emplace(item.item, Picture{item, EditDraft(QString::fromStdString(item.text))});
        return;
    }
    const bool other = found->second.item.picture->hash != item.picture->hash || found->second.item.text != item.text;
    if (other) { // what was changed here was of the one before
        if (!own && item.item == m_open && found->second.draft.isChanged())
            m_notice = tr("Somebody else has changed this picture meanwhile. Please look at it once more.");
        found->second.draft = EditDraft(QString::fromStdString(item.text));
    }
    found->second.item = item;
}

void PictureDesk::answered(const RequestId& id, const Error* error)
{
    if (!m_pending || m_pending->id != id)
        return;
    if (error) {
        m_pending.reset();
        m_notice = QString::fromStdString(error->message);
    } else {
        m_pending->done = true;
        settle();
    }
    emit changed();
}

/// Once the relay has said both that it is done and how the picture stands now.
void PictureDesk::settle()
{
    if (!m_pending || !m_pending->done)
        return;
    const auto found = m_pictures.find(m_pending->item);
    if (found != m_pictures.end() && found->second.item.change == m_pending->change)
        return;
    const Pending done = *m_pending;
    m_pending.reset();
    if (done.item == m_open)
        close();
    if (found != m_pictures.end())
        emit decisionRequested(done.item, done.then);
}

} // namespace vh::pictures
