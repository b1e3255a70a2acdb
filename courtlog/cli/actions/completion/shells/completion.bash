# courtlog: TAB goes on with commands, options, players, clinics, drills, dates and files.
_courtlog_completion() {
    local row kind=
    COMPREPLY=()
    while IFS= read -r row; do
        if [[ -z $kind ]]; then kind=$row; else COMPREPLY+=("$row"); fi
    done < <(_COURTLOG_COMPLETE=bash _COURTLOG_WORDS="${COMP_LINE:0:COMP_POINT}" \
        "${1/#\~/$HOME}" 2>/dev/null)
    case $kind in
        files) compopt -o default 2>/dev/null ;;
        folders) compopt -o dirnames 2>/dev/null ;;
    esac
}
complete -o nosort -F _courtlog_completion courtlog 2>/dev/null ||
    complete -F _courtlog_completion courtlog
