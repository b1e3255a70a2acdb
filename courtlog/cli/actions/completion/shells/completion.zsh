# courtlog: TAB goes on with commands, options, players, clinics, drills, dates and files.
_courtlog_completion() {
    local -a typed rows values notes
    local row program
    (( CURRENT > 2 )) && typed=("${(@Q)words[2,CURRENT-1]}")
    typed+=("${(Q)PREFIX}")
    program=${(Q)words[1]}
    rows=("${(@f)$(_COURTLOG_COMPLETE=zsh _COURTLOG_WORDS=$'\n'"${(pj:\n:)typed}" \
        "${program/#\~/$HOME}" 2>/dev/null)}")
    for row in "${(@)rows[2,-1]}"; do
        case $row in
            '') ;;
            ' '*) notes[-1]+=" $row" ;;
            *) values+=("$row") notes+=("$row") ;;
        esac
    done
    case $rows[1] in
        files) _files ;;
        folders) _files -/ ;;
        words) (( $#values )) && compadd -U -V courtlog -l -d notes -a values ;;
    esac
}
(( ${+functions[compdef]} )) || { autoload -Uz compinit && compinit; }
compdef _courtlog_completion courtlog
