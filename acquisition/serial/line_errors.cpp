#include "acquisition/serial/line_errors.hpp"

#include <cerrno>
#include <cstring>
#include <grp.h>
#include <sys/stat.h>

#include <array>
#include <charconv>
#include <vector>

namespace zeroline::serial {

namespace {

using trace::InputError;

std::string group_owning(const std::string& path)
{
    struct stat status = {};
    if (::stat(path.c_str(), &status) != 0) {
        return {};
    }
    struct group entry = {};
    struct group* found = nullptr;
    std::vector<char> room(4096);
    if (::getgrgid_r(status.st_gid, &entry, room.data(), room.size(), &found) != 0 || found == nullptr) {
        return std::to_string(status.st_gid);
    }
    return found->gr_name;
}

std::string in_words(int error_number)
{
    std::array<char, 256> room{};
    return ::strerror_r(error_number, room.data(), room.size());
}

std::string seconds_in_words(double seconds)
{
    std::array<char, 32> room{};
    const auto end = std::to_chars(room.data(), room.data() + room.size(), seconds, std::chars_format::general, 3).ptr;
    return std::string(room.data(), end) + " s";
}

InputError no_permission(const std::string& port)
{
    const std::string group = group_owning(port);
    return group.empty() ? InputError(port, "you may not look into its folder", "a port you may open")
                         : InputError(port, "you may not open it; it belongs to group " + group,
                                      "an account in that group: sudo adduser $USER " + group + ", then log in again");
}

} // namespace

InputError cannot_open(const std::string& port, int error_number)
{
    switch (error_number) {
    case ENOENT:
    case ENOTDIR:
    case ENXIO:
    case ENODEV:
        return {port, "there is no such port", "the port the instrument is plugged into: `zeroline ports` lists them"};
    case EACCES:
    case EPERM:
        return no_permission(port);
    case EBUSY:
        return taken_by_another_program(port);
    case EIO:
        return {port, "nothing answers behind this port", "an instrument plugged in and switched on"};
    default:
        return {port, "it cannot be opened: " + in_words(error_number), "a serial port"};
    }
}

InputError taken_by_another_program(const std::string& port)
{
    return {port, "another program is using it", "a free port: close the other program, then try again"};
}

InputError no_serial_device(const std::string& port)
{
    return {port, "this is no serial port", "a serial port: `zeroline ports` lists them"};
}

InputError setting_refused(const std::string& port, const std::string& setting)
{
    return {port, "the port does not take " + setting, "a setting that this port offers, in the instrument file"};
}

InputError cannot_create_trace(const std::string& file, int error_number)
{
    switch (error_number) {
    case EROFS:
    case EACCES:
    case EPERM:
        return {file, "the trace cannot be saved here, the folder is read-only", "a folder you may write to"};
    case ENOENT:
        return {file, "the folder does not exist", "an existing folder"};
    case EISDIR:
        return {file, "this is a folder", "a file name"};
    case ENOSPC:
    case EDQUOT:
        return {file, "the disk is full", "free space for the trace"};
    default:
        return {file, "the trace cannot be saved here: " + in_words(error_number), "a file that can be written"};
    }
}

InputError trace_file_not_empty(const std::string& file)
{
    return {file, "the file is there already", "a new name: a trace is never written over"};
}

std::string cannot_write_trace(const std::string& file, int error_number)
{
    const std::string kept = "; what was written before is in the file";
    switch (error_number) {
    case ENOSPC:
    case EDQUOT:
        return file + ": the disk is full" + kept + "; make room, then start again";
    case EFBIG:
        return file + ": the file may not grow any further" + kept + "; raise the limit, then start again";
    default:
        return file + ": the trace could not be written (" + in_words(error_number) + ")" + kept + "; try another disk";
    }
}

std::string disk_too_slow(const std::string& file)
{
    return file + ": the disk has taken nothing for too long; what was written before is in the file; try another disk";
}

std::string no_byte(const LineWords& line, double seconds)
{
    return "no byte for " + seconds_in_words(seconds) + " on " + line.port + " at " + line.settings +
           "; is the cable in, the instrument on, the start text and dtr/rts right?";
}

std::string no_reading(const LineWords& line, double seconds, const std::string& trouble)
{
    return "no reading for " + seconds_in_words(seconds) + " on " + line.port + " at " + line.settings +
           ", though bytes arrive" + (trouble.empty() ? "" : " (" + trouble + ")") +
           "; are baud rate, parity, field and unit right?";
}

std::string no_answer(const LineWords& line, double seconds, const std::string& trouble)
{
    return "no reading for " + seconds_in_words(seconds) + " on " + line.port + " at " + line.settings +
           (trouble.empty() ? "" : " (" + trouble + ")") + "; are cable, baud rate, address and query right?";
}

std::string instrument_gone(const std::string& port, double wait_s)
{
    return "the instrument on " + port + " is gone; plug it in again, it is waited for up to " +
           seconds_in_words(wait_s);
}

std::string instrument_stayed_away(const std::string& port, double waited_s)
{
    return "the instrument on " + port + " was gone and did not come back within " + seconds_in_words(waited_s) +
           "; what came before is kept";
}

} // namespace zeroline::serial
