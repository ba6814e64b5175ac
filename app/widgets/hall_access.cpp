#include "app/widgets/hall_access.h"

#include "app/widgets/hall_view.h"

#include <QAccessibleWidget>

#include <map>

namespace vh
{

namespace
{

class SeatAccess final : public QAccessibleInterface, public QAccessibleActionInterface
{
public:
    SeatAccess(HallView& hall, int place) : m_hall(hall), m_place(place) {}

    [[nodiscard]] bool isValid() const override { return m_hall.rowAt(m_place) != nullptr; }
    [[nodiscard]] QObject* object() const override { return nullptr; }
    [[nodiscard]] QAccessibleInterface* parent() const override
    {
        return QAccessible::queryAccessibleInterface(&m_hall);
    }
    [[nodiscard]] QAccessibleInterface* child(int) const override { return nullptr; }
    [[nodiscard]] QAccessibleInterface* childAt(int, int) const override { return nullptr; }
    [[nodiscard]] int childCount() const override { return 0; }
    [[nodiscard]] int indexOfChild(const QAccessibleInterface*) const override { return -1; }
    [[nodiscard]] QAccessible::Role role() const override { return QAccessible::ListItem; }
    [[nodiscard]] QRect rect() const override
    {
        const QRect inside = m_hall.rectOf(m_place);
        return {m_hall.mapToGlobal(inside.topLeft()), inside.size()};
    }
    [[nodiscard]] QAccessible::State state() const override
    {
        QAccessible::State state;
        state.focusable = true;
        state.focused = m_hall.hasFocus() && m_hall.focusPlace() == m_place;
        state.offscreen = !m_hall.rect().intersects(m_hall.rectOf(m_place));
        state.invalid = !isValid();
        return state;
    }
    [[nodiscard]] QString text(QAccessible::Text kind) const override
    {
        const SeatRow* row = m_hall.rowAt(m_place);
        return row && kind == QAccessible::Name ? HallView::wordsOf(*row) : QString();
    }
    void setText(QAccessible::Text, const QString&) override {}
    void* interface_cast(QAccessible::InterfaceType type) override
    {
        return type == QAccessible::ActionInterface ? static_cast<QAccessibleActionInterface*>(this) : nullptr;
    }

    [[nodiscard]] QStringList actionNames() const override { return {pressAction(), setFocusAction()}; }
    void doAction(const QString& name) override
    {
        if (name == setFocusAction()) {
            m_hall.setFocus();
            m_hall.setFocusPlace(m_place);
        } else if (name == pressAction()) {
            m_hall.requestPlace(m_place);
        }
    }
    [[nodiscard]] QStringList keyBindingsForAction(const QString&) const override { return {}; }
    [[nodiscard]] int place() const { return m_place; }

private:
    HallView& m_hall;
    int m_place;
};

class HallAccess final : public QAccessibleWidget
{
public:
    explicit HallAccess(HallView* hall) : QAccessibleWidget(hall, QAccessible::List), m_hall(*hall) {}
    ~HallAccess() override
    {
        for (const auto& [place, id] : m_seats)
            QAccessible::deleteAccessibleInterface(id);
    }

    [[nodiscard]] int childCount() const override
    {
        int taken = 0;
        for (int place = 0; place < m_hall.layoutNow().places(); ++place)
            taken += m_hall.rowAt(place) != nullptr;
        return taken;
    }
    [[nodiscard]] QAccessibleInterface* child(int index) const override
    {
        for (int place = 0; place < m_hall.layoutNow().places(); ++place)
            if (m_hall.rowAt(place) && index-- == 0)
                return seatAt(place);
        return nullptr;
    }
    [[nodiscard]] int indexOfChild(const QAccessibleInterface* child) const override
    {
        const auto* seat = dynamic_cast<const SeatAccess*>(child);
        return seat ? childOf(m_hall, seat->place()) : -1;
    }
    [[nodiscard]] QAccessibleInterface* childAt(int x, int y) const override
    {
        const QPoint at = m_hall.mapFromGlobal(QPoint(x, y));
        for (int place = 0; place < m_hall.layoutNow().places(); ++place)
            if (m_hall.rowAt(place) && m_hall.rectOf(place).contains(at))
                return seatAt(place);
        return nullptr;
    }
    [[nodiscard]] QAccessibleInterface* focusChild() const override
    {
        return m_hall.hasFocus() && m_hall.rowAt(m_hall.focusPlace()) ? seatAt(m_hall.focusPlace()) : nullptr;
    }

private:
    QAccessibleInterface* seatAt(int place) const
    {
        auto& id = m_seats[place];
        if (id == 0)
            id = QAccessible::registerAccessibleInterface(new SeatAccess(m_hall, place));
        return QAccessible::accessibleInterface(id);
    }

    HallView& m_hall;
    mutable std::map<int, QAccessible::Id> m_seats;
};

QAccessibleInterface* makeInterface(const QString&, QObject* object)
{
    auto* hall = qobject_cast<HallView*>(object);
    return hall ? new HallAccess(hall) : nullptr; // Qt's cache owns it
}

} // namespace

void useHallAccess()
{
    static const bool installed = [] {
        QAccessible::installFactory(makeInterface);
        return true;
    }();
    Q_UNUSED(installed);
}

int childOf(const HallView& hall, int place)
{
    if (!hall.rowAt(place))
        return -1;
    int index = 0;
    for (int before = 0; before < place; ++before)
        index += hall.rowAt(before) != nullptr;
    return index;
}

} // namespace vh
