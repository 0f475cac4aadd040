"""A Modbus RTU server of pymodbus on a serial port: unit 1; holding registers 4 and 5 hold the int32 -123456, high word
first; input register 3 holds 4000. Runs until it is killed."""

import sys

from pymodbus.constants import Endian
from pymodbus.datastore import ModbusSequentialDataBlock, ModbusServerContext, ModbusSlaveContext
from pymodbus.payload import BinaryPayloadBuilder
from pymodbus.server import StartSerialServer
from pymodbus.transaction import ModbusRtuFramer

builder = BinaryPayloadBuilder(byteorder=Endian.Big, wordorder=Endian.Big)
builder.add_32bit_int(-123456)
holding = [0] * 4 + builder.to_registers() + [0] * 4
unit = ModbusSlaveContext(
    hr=ModbusSequentialDataBlock(0, holding),
    ir=ModbusSequentialDataBlock(0, [0, 0, 0, 4000]),
    zero_mode=True,
)
context = ModbusServerContext(slaves={1: unit}, single=False)
StartSerialServer(context=context, framer=ModbusRtuFramer, port=sys.argv[1], baudrate=19200, timeout=0.05)
