"""The script that ties the runtime to the browser, without what no page of ours calls.

The script offers all that it has to extensions, which are compiled apart and
loaded later: drawing, sound, windows, other file systems.  No page loads any
extension.  So what the script only offers is not offered here, and terser
takes out what nothing calls then.
"""

import re
from collections.abc import Set

from generator.build.terser import UNUSED, shortened

#: An export of the WebAssembly, or the address of one, that is taken and offered.
_TAKEN = re.compile(r'var (\w+)=Module\["\1"\]=(wasmExports\["\w+"\]|[\de]+);')
#: A function or an object of the script that is offered.
_OFFERED = re.compile(r'Module\["(\w+)"\]=\1;')
#: What a function of the script takes and gives, said for extensions and for places in the table of functions.
_SAID = re.compile(r'(?<=[;}])(\w+)\.(?:sig="\w*"|isAsync=true);?')
_IMPORTS = re.compile(r"(?<=\bwasmImports=\{)[^}]*")
#: A function of WebGL as the script offers it.  The runtime has places in its table of functions for some 270 of them,
#: and wraps each into a module of its own at every start, which takes time.
_DRAWING = re.compile(r"\b(emscripten_gl\w+):\w+")
_ONE_DRAWING = "_emscripten_glFlush"  # stands for all of them: it takes nothing and gives nothing
#: Beside names that are taken out of the module by their places: `Module.name`, `"name"`, `{name, …} = Module`.
_ASKED = re.compile(r"""\.(\w+)|["'](\w+)["']|\{([\w:,]+)\}=""")
_EVAL = re.compile(r"(?<![.\w])eval\(")


def fewer_functions(script: str, imported: Set[str], loader: str) -> str:
    """The script without the functions that only extensions would call.

    imported  what the WebAssembly imports, by name
    loader    the script that starts this one

    What stands at which place of the table of functions depends on it: an image of the memory belongs to the script
    that it was made with.  Trouble if terser cannot read it.
    """
    return shortened("The runtime's script", [offering_less(script, imported, loader)], UNUSED)[0]


def offering_less(script: str, imported: Set[str], loader: str) -> str:
    """The script when it offers only what is imported, or asked for by name."""
    script = _IMPORTS.sub(
        lambda imports: ",".join(entry for entry in imports[0].split(",") if entry.split(":")[0] in imported), script
    )
    script = _DRAWING.sub(rf"\1:{_ONE_DRAWING}", script)
    given = {entry.split(":")[-1] for imports in _IMPORTS.findall(script) for entry in imports.split(",")}
    script = _SAID.sub(lambda said: said[0] if said[1] in given else "", script)
    asked = {
        name
        for names in _ASKED.findall(_OFFERED.sub("", _TAKEN.sub(r"\2;", script)) + loader)
        for part in names
        for name in re.findall(r"\w+", part)
    }
    script = _TAKEN.sub(lambda taken: taken[0] if taken[1] in asked else f"var {taken[1]}={taken[2]};", script)
    script = _OFFERED.sub(lambda offered: offered[0] if offered[1] in asked else "", script)
    # what `eval` may see cannot be taken out; here it is called for extensions alone
    return _EVAL.sub("(0,eval)(", script)
