"""Method files: YAML that the office writes, compiled to the one canonical document that a job pins."""

from .compiling import Compiled, compile_methods
from .faults import Fault, MethodFileFault
from .form import method_schema

__all__ = ["Compiled", "Fault", "MethodFileFault", "compile_methods", "method_schema"]
