# courtlog: TAB goes on with commands, options, players, clinics, drills, dates and files.
function __courtlog_completion
    set -l before (commandline -opc)
    set -l typed ''
    for word in $before[2..] "$(commandline -ct)"
        set typed "$typed"\n"$word"
    end
    set -l rows (_COURTLOG_COMPLETE=fish _COURTLOG_WORDS="$typed" $before[1] 2>/dev/null)
    switch "$rows[1]"
        case files
            __fish_complete_path (commandline -ct)
        case folders
            __fish_complete_directories (commandline -ct) ''
        case words
            set -l value
            for row in $rows[2..]
                if set -l note (string match -r '^ (.*)' -- $row)
                    printf '%s\t%s\n' $value $note[2]
                    set -e value
                else
                    set -q value[1]; and printf '%s\n' $value
                    set value $row
                end
            end
            set -q value[1]; and printf '%s\n' $value
    end
end
complete -c courtlog -k -f -a '(__courtlog_completion)'
