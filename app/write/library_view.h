#pragma once
// What the library's page shows, as one value; made by LibraryState, shown by LibraryPage.
#include "app/widgets/notice_line.h"
#include "app/widgets/row_list.h"
#include "app/widgets/script_rail.h"

#include <QStringList>

#include <vector>

namespace vh::write
{

/// A look at one class, or at what is wrong with its file.
struct ClassLook {
    struct Part {
        QString title;
        QString length;
        QString firstLine;
        friend bool operator==(const Part&, const Part&) = default;
    };
    struct Mistake {
        QString where; ///< "line 12"
        QString words;
        friend bool operator==(const Mistake&, const Mistake&) = default;
    };
    QString path;  ///< empty: none is chosen
    QString title; ///< or what to do, where none is
    QString about;
    QStringList used; ///< of the group's last days
    ScriptRail::State rail;
    std::vector<Part> parts;
    std::vector<Mistake> mistakes;
    bool own = false;      ///< may be renamed and put aside
    bool readable = false; ///< is a class
    bool writable = false; ///< can be opened in the editor
    friend bool operator==(const ClassLook&, const ClassLook&) = default;
};

struct LibraryView {
    QString query;
    QString count; ///< "21 classes", "3 of 21"
    RowList::State rows;
    ClassLook look;
    QString group;  ///< whose days are meant; empty: there is but one
    QString forDay; ///< a class is being chosen for this day; empty: not
    bool renaming = false;
    bool canPutBack = false;
    NoticeLine::State notice;
    friend bool operator==(const LibraryView&, const LibraryView&) = default;
};

} // namespace vh::write
