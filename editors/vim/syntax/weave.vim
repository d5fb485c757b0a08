" Highlighting of weave files.
if exists("b:current_syntax")
  finish
endif
syntax case ignore
syntax keyword weaveStatement weave base mirrored spiral ring repeat accent every from row rows column columns
syntax keyword weaveStatement gauges lay fold lean ends add drop rings colours colors make claim by
syntax keyword weavePass through around down up over under between behind front of back eye
syntax keyword weavePass far near side and held upright left right
syntax keyword weaveState closed open close last all
syntax keyword weaveSize wire inner AR mm in inch inches awg swg gauge ga g
syntax keyword weaveMake length height width clasp repeats pieces spares measured pitch weight fits straight for
syntax match weaveNumber "\<\d\+\%([./]\d\+\)\?\>"
syntax region weaveName start=+["“]+ end=+["”]+ oneline
syntax match weaveComment "#.*$"
highlight default link weaveStatement Statement
highlight default link weavePass Function
highlight default link weaveState Type
highlight default link weaveSize Identifier
highlight default link weaveMake Identifier
highlight default link weaveNumber Number
highlight default link weaveName String
highlight default link weaveComment Comment
let b:current_syntax = "weave"
