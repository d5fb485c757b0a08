autocmd BufRead,BufNewFile *.weave setfiletype weave
