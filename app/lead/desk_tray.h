#pragma once
// The tray along the foot of the class page: three fixed places for questions that the desk has passed on, each with
// the key that marks it taken. Always as high; empty it is nothing but paper. A line may run on over empty places to
// its right; what does not fit is cut, and whole on the sheet of the desk. Part of ClassPage. GUI thread.
#include "app/lead/desk_news_view.h"

#include <QWidget>

namespace vh::lead
{

class DeskTray : public QWidget
{
    Q_OBJECT
public:
    /// The key of the first place; the others follow.
    static constexpr int kFirstKey = 7;

    explicit DeskTray(QWidget* parent);
    using Places = std::array<DeskLine, DeskNewsView::kPlaces>;
    void setState(const Places& places);
    /// The key of a place, from 0; nothing where that is empty.
    void pressPlace(std::size_t place);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return {0, sizeHint().height()}; }

signals:
    void takeRequested(quint64 item);

protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    class Place;
    void place();
    Places m_state;
    std::vector<Place*> m_places;
};

} // namespace vh::lead
