#pragma once
// The picture that the leader shows to all, as the group's window has it: large, with whose it is and its caption
// below. GUI thread.
#include <QImage>
#include <QWidget>

class QLabel;

namespace vh::pictures
{

class PictureBox;

/// What is in the group's window besides the class; null picture and no words: nothing.
struct ShownPicture {
    QImage picture;
    QString words;   ///< while it is not here yet
    QString caption; ///< with whose it is; may be empty
    [[nodiscard]] bool isShown() const { return !picture.isNull() || !words.isEmpty(); }
};
/// "Ruth: my beans"; either may be empty.
QString captionOf(const QString& name, const QString& text);

class ShownView : public QWidget
{
    Q_OBJECT
public:
    explicit ShownView(QWidget* parent = nullptr);
    void setState(const ShownPicture& shown);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    PictureBox* m_picture;
    QLabel* m_caption;
};

} // namespace vh::pictures
