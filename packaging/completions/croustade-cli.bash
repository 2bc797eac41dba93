# Completion of croustade-cli in bash.

_croustade_cli() {
  local current=${COMP_WORDS[COMP_CWORD]} previous=${COMP_WORDS[COMP_CWORD - 1]}
  local command=${COMP_WORDS[1]-} words=''

  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    mapfile -t COMPREPLY < <(compgen -W 'new load dump add cost plan allergens prices history undo workbook card month close reopen check --help --version' -- "$current")
    return
  fi
  case $previous in
    --on | --as-of | --from) words=$(date +%F) ;;
    --month | --against) words=$(date +%Y-%m) ;;
    --language) words='en fr' ;;
    --paper) words='a4 letter' ;;
    --list) words='eu us' ;;
    --avoids)
      words='gluten crustaceans eggs fish peanuts soybeans milk nuts celery mustard sesame sulphites lupin molluscs tree-nuts wheat'
      ;;
    --journal | --accounts) mapfile -t COMPREPLY < <(compgen -f -- "$current") && return ;;
    --plate | --menu | --preparation | --bites | --last | --covers | --have | --service | --supplier | --accept | --is | --holds | --estimate | --reason) return ;;
    *)
      case $current in
        -*)
          words='--help'
          case $command in
            load) words="$words --replace" ;;
            dump) words="$words --salvage" ;;
            add) words="$words --dry-run --again" ;;
            history) words="$words --last --json" ;;
            plan) words="$words --covers --have --service --on --json --orders --output --language" ;;
            allergens) words="$words --menu --avoids --list --on --json --output --language" ;;
            prices)
              words="$words --supplier --from --accept --accept-all --accept-seller --is --holds --charges"
              words="$words --dry-run --json"
              ;;
            cost) words="$words --on --as-of --plate --menu --json" ;;
            workbook) words="$words --month --output --language --accounts" ;;
            card)
              words="$words --plate --menu --preparation --all --kitchen --bites --money --paper"
              words="$words --on --output --language"
              ;;
            month) words="$words --matrix --against --journal --accounts --language --json" ;;
            close) words="$words --estimate" ;;
            reopen) words="$words --reason" ;;
          esac
          ;;
        *)
          compopt -o filenames
          if [ "$COMP_CWORD" -eq 3 ] && [ "$command" != prices ]; then
            mapfile -t COMPREPLY < <(compgen -d -- "$current")
          else
            mapfile -t COMPREPLY < <(compgen -f -- "$current")
          fi
          return
          ;;
      esac
      ;;
  esac
  mapfile -t COMPREPLY < <(compgen -W "$words" -- "$current")
}

complete -F _croustade_cli croustade-cli
