// A Modbus RTU server of libmodbus on a serial port: unit 1; holding registers 0 and 1 hold the float -40.5, low word
// first as libmodbus writes it; 2 and 3 hold it high word first (C222 0000); input register 8 holds ten. Runs until it
// is killed.

#include <modbus/modbus.h>

#include <array>

int main(int argc, char** argv)
{
    modbus_t* server = argc == 2 ? modbus_new_rtu(argv[1], 19200, 'N', 8, 1) : nullptr;
    modbus_mapping_t* registers = modbus_mapping_new(0, 0, 16, 16);
    if (server == nullptr || registers == nullptr || modbus_set_slave(server, 1) != 0 || modbus_connect(server) != 0) {
        return 1;
    }
    modbus_set_float(-40.5F, registers->tab_registers);
    registers->tab_registers[2] = 0xC222; // not by modbus_set_float_abcd(): release 3.1.6 swaps its bytes
    registers->tab_registers[3] = 0x0000;
    registers->tab_input_registers[8] = 10;
    std::array<unsigned char, MODBUS_RTU_MAX_ADU_LENGTH> request{};
    while (true) {
        const int length = modbus_receive(server, request.data());
        if (length > 0) {
            modbus_reply(server, request.data(), length, registers);
        }
    }
}
