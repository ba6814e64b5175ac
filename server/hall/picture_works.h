#pragma once
// What a relay needs to take pictures, for all its halls: the maker of pictures, and how many bytes of pictures may be
// under way. Thread: any.
#include "server/hall/coming_pictures.h"
#include "server/photos/picture_maker.h"

namespace vh::hall
{

struct PictureWorks {
    explicit PictureWorks(std::filesystem::path program) : maker(std::move(program)) {}

    photos::PictureMaker maker;
    PictureRoom room{kPictureRoomOfAll};
};

} // namespace vh::hall
