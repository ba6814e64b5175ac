#pragma once
// The hall, covered: a calm pattern, how to uncover it, and what cannot wait, without anybody's name. Part of HallSide.
// GUI thread.
#include "app/widgets/spoken_widget.h"

namespace vh::lead
{

class CoverSheet : public SpokenWidget
{
    Q_OBJECT
public:
    explicit CoverSheet(QWidget* parent);
    /// What cannot wait ("Somebody needs help."); may be empty.
    void setWords(const QString& words);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString m_words;
};

} // namespace vh::lead
