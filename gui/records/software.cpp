#include "gui/records/software.hpp"

#include "zeroline_build_stamp.hpp"

namespace zeroline::records {

const record::Software& this_software()
{
    static const record::Software software{ZEROLINE_VERSION, ZEROLINE_COMPILER " " ZEROLINE_COMMIT};
    return software;
}

} // namespace zeroline::records
