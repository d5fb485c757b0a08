" :compiler byrnie, then :make fills the quickfix list with what `byrnie lint` finds.
if exists("current_compiler")
  finish
endif
let current_compiler = "byrnie"
CompilerSet makeprg=byrnie\ lint\ --format\ plain\ %:S
CompilerSet errorformat=%f:%l:%c:\ %trror[%.%#]:\ %m,%f:%l:%c:\ %tarning[%.%#]:\ %m,%C\ \ %m,%-G%.%#
