# SPDX-License-Identifier: Apache-2.0
# Made by scripts/command-files from the words that tidelot parses.
_tidelot() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} words=""
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    mapfile -t COMPREPLY < <(compgen -W "scout join check explain compare crops start --help --version" -- "$word")
    return
  fi
  case $before in
    --out|--sheets)
      mapfile -t COMPREPLY < <(compgen -d -- "$word")
      return
      ;;
    --at|--crops|--memory|--part|--target-kg|--threads) return ;;
  esac
  case ${COMP_WORDS[1]} in
    scout) words="--help --out --threads --memory --quiet --sheets --resume --part" ;;
    join) words="--help --out --threads --memory --quiet --sheets" ;;
    check) words="--help --json" ;;
    explain) words="--help --at --csv --json" ;;
    compare) words="--help --out --threads --target-kg --allow-different --quiet --crops" ;;
    crops) words="--help" ;;
    start) words="--help" ;;
    *) return ;;
  esac
  if [[ $word == -* ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$words" -- "$word")
  else
    mapfile -t COMPREPLY < <(compgen -f -- "$word")
  fi
}
complete -o filenames -F _tidelot tidelot
