#pragma once
// An editor in a window of its own, and a folder with a class file, for its tests. GUI thread.
#include "app/look/look.h"
#include "app/write/editor_control.h"
#include "common/script/writer.h"
#include "tests/app/write/write_classes.h"
#include "tests/app/write/writing_hand.h"

#include <QFile>
#include <QTemporaryDir>
#include <QVBoxLayout>

namespace vh::testing
{

inline constexpr write::DraftKeeper::Setup kQuick{std::chrono::milliseconds{5}, std::chrono::milliseconds{10}};

struct EditorWindow : QWidget {
    explicit EditorWindow(write::EditorSetup setup = {{}, {}, kQuick}) : control(std::move(setup), this)
    {
        auto* box = new QVBoxLayout(this);
        box->setContentsMargins(0, 0, 0, 0);
        box->addWidget(control.page());
        resize(1366, 700);
    }
    template <class T>
    T& part()
    {
        return *control.page()->findChild<T*>();
    }
    [[nodiscard]] write::ClassDocument& document() { return control.document(); }
    write::EditorControl control;
};

inline QString contentOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

inline void putClass(const QString& path, const ClassScript& script)
{
    QFile file(path);
    if (!file.open(QIODevice::WriteOnly) || file.write(QByteArray::fromStdString(writeClassScript(script))) < 0)
        qFatal("cannot write");
}

} // namespace vh::testing
