"""Method files: YAML that the office writes, compiled to the one canonical document that a job pins."""

from .compiling import Checked, Compiled, check_methods, compile_methods
from .faults import Fault, MethodFileFault
from .form import method_schema
from .remarks import Remark
from .told import told

__all__ = [
    "Checked",
    "Compiled",
    "Fault",
    "MethodFileFault",
    "Remark",
    "check_methods",
    "compile_methods",
    "method_schema",
    "told",
]
