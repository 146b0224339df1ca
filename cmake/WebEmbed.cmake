# cmake -DDIST=... -DOUT=... -P WebEmbed.cmake: OUT/page.S and OUT/page.cc from the files of DIST.

cmake_minimum_required(VERSION 3.25)
set(mime_html "text/html; charset=utf-8")
set(mime_js "text/javascript; charset=utf-8")
set(mime_css "text/css; charset=utf-8")
set(mime_svg "image/svg+xml")
set(mime_png "image/png")
set(mime_json "application/json")
set(mime_woff2 "font/woff2")

file(GLOB_RECURSE files RELATIVE ${DIST} ${DIST}/*)
list(SORT files)
if(NOT "index.html" IN_LIST files)
  message(FATAL_ERROR "The build of the page left no index.html in ${DIST}")
endif()

set(asm ".section .rodata\n")
set(externs "")
set(rows "")
set(n 0)
foreach(file IN LISTS files)
  string(REGEX MATCH "[^.]+$" ending "${file}")
  if(NOT DEFINED mime_${ending})
    message(FATAL_ERROR "WebEmbed.cmake has no type for ${file}")
  endif()
  file(SHA256 ${DIST}/${file} hash)
  string(SUBSTRING ${hash} 0 16 hash)
  set(path "/${file}")
  if(file STREQUAL "index.html")
    set(path "/")
  endif()
  string(APPEND asm ".balign 16\n.global sw_page_${n}\n.global sw_page_${n}_end\n"
                    "sw_page_${n}:\n.incbin \"${DIST}/${file}\"\nsw_page_${n}_end:\n")
  string(APPEND externs "extern \"C\" const unsigned char sw_page_${n}[], sw_page_${n}_end[];\n")
  string(APPEND rows "      {\"${path}\", \"${mime_${ending}}\", \"\\\"${hash}\\\"\", {sw_page_${n}, sw_page_${n}_end}},\n")
  math(EXPR n "${n} + 1")
endforeach()
string(APPEND asm ".section .note.GNU-stack,\"\",@progbits\n")
file(WRITE ${OUT}/page.S "${asm}")
file(WRITE ${OUT}/page.cc
"#include \"server/assets.h\"

#include <array>

${externs}
std::span<const shimwright::server::Asset> shimwright::server::page_assets() {
  static const std::array<Asset, ${n}> assets = {{
${rows}  }};
  return assets;
}
")
