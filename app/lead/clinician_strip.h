#pragma once
// What the desk says needs a clinician: who wrote it, the words, and one press that takes it. Stands out by a heavy
// frame, large words and its place, where calls for help stand; nothing flashes. One at a time; of more it says so.
// Without any it takes no room. Part of HallSide and of the pages before and after class. GUI thread.
#include "app/lead/desk_news_view.h"
#include "app/widgets/spoken_widget.h"

namespace vh
{
class BigButton;
}

namespace vh::lead
{

class OneLine;

class ClinicianStrip : public SpokenWidget
{
    Q_OBJECT
public:
    explicit ClinicianStrip(QWidget* parent);
    /// The first of them is shown.
    void setState(const std::vector<DeskLine>& lines);
    /// Its key.
    void press();

signals:
    void takeRequested(quint64 item);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    class FewLines;
    DeskLine m_line;
    OneLine* m_head;
    FewLines* m_words;
    BigButton* m_take;
};

} // namespace vh::lead
