#pragma once
// The fields of a class as a whole, and of one part of it. GUI thread.
#include "app/write/editor_view.h"

#include <QWidget>

class QComboBox;
class QLineEdit;

namespace vh::write
{

/// "Phrases", "Back of the tongue": a kind of section in words.
QString wordsOf(SectionKind kind);

class ClassSide : public QWidget
{
    Q_OBJECT
public:
    explicit ClassSide(QWidget* parent = nullptr);
    void setState(const ClassFields& fields);
    void toTitle();

signals:
    void titleTyped(const QString& title);
    void themeTyped(const QString& theme);
    void languageTyped(const QString& language);
    void minutesTyped(int minutes);

private:
    QLineEdit* m_title;
    QLineEdit* m_theme;
    QLineEdit* m_minutes;
    QLineEdit* m_language;
};

class PartSide : public QWidget
{
    Q_OBJECT
public:
    explicit PartSide(QWidget* parent = nullptr);
    void setState(const PartFields& fields);
    void toTitle();

signals:
    void titleTyped(const QString& title);
    void kindChosen(vh::SectionKind kind);

private:
    QLineEdit* m_title;
    QComboBox* m_kind;
};

} // namespace vh::write
