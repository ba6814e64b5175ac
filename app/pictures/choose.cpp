#include "app/pictures/choose.h"

#include <QCoreApplication>
#include <QFileDialog>
#include <QStandardPaths>

namespace vh::pictures
{

void choosePicture(QWidget* parent, std::function<void(const QString& path)> done)
{
    if (parent->findChild<QFileDialog*>())
        return; // it is open already
    auto* dialog = new QFileDialog(parent, QCoreApplication::translate("vh::pictures", "Choose a picture"),
                                   QStandardPaths::writableLocation(QStandardPaths::PicturesLocation),
                                   QCoreApplication::translate("vh::pictures", "Pictures") +
                                       QStringLiteral(" (*.jpg *.jpeg *.png *.gif *.bmp *.webp *.JPG *.JPEG *.PNG)"));
    dialog->setFileMode(QFileDialog::ExistingFile);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    QObject::connect(dialog, &QFileDialog::fileSelected, parent, std::move(done));
    dialog->open();
}

} // namespace vh::pictures
