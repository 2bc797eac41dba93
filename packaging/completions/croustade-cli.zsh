#compdef croustade-cli
# Completion of croustade-cli in zsh.

local -a commands
commands=(
  'new:make an empty book'
  'load:load a folder of tables into a book'
  'dump:write all tables of a book into a folder'
  'add:change and add rows by their keys'
  'cost:cost plates, menus and items'
  'plan:what to make and buy for a service'
  'allergens:what plates contain, and who carries it in'
  'prices:post a price list, a message or an invoice'
  'history:print what was changed, by whom and when'
  'undo:take an act back'
  'workbook:write the spreadsheet for the office'
  'card:print cost cards or kitchen cards'
  'month:print the statement of a month'
  'close:close a month'
  'reopen:open a closed month again'
  'check:verify the file and the costing model'
)

if (( CURRENT == 2 )); then
  _describe command commands -- '(--help:show help --version:show the version)'
  return
fi

local command=$words[2]
words=("${(@)words[2,-1]}")
(( CURRENT-- ))

case $command in
  load)
    _arguments '--help[show help]' \
      '--replace[make the tables those of the folder, in one act]' \
      '1:book:_files -g "*.croustade"' '2:folder:_files -/'
    ;;
  dump)
    _arguments '--help[show help]' \
      '--salvage[of a damaged book, what can be read]' \
      '1:book:_files -g "*.croustade"' '2:folder:_files -/'
    ;;
  add)
    _arguments '--help[show help]' \
      '--dry-run[say what would change, and change nothing]' \
      '--again[add rows that the book has already]' \
      '1:book:_files -g "*.croustade"' '2:folder:_files -/'
    ;;
  history)
    _arguments '--help[show help]' \
      '--last=[the newest so many alone]:number:' \
      '--json[print it for a program]' \
      '1:book:_files -g "*.croustade"'
    ;;
  undo)
    _arguments '--help[show help]' '1:book:_files -g "*.croustade"' '2:act:'
    ;;
  cost)
    _arguments '--help[show help]' \
      '--on=[prices of that day]:date:($(date +%F))' \
      '--as-of=[the book as it stood at the end of that day]:date:($(date +%F))' \
      '*--plate=[the cost card of that plate]:plate:' \
      '*--menu=[the cost card of that menu]:menu:' \
      '--json[print figures for a program, unrounded]' \
      '1:book:_files -g "*.croustade"'
    ;;
  plan)
    _arguments '--help[show help]' \
      '*--covers=[covers of a plate or menu, NAME=N]:covers:' \
      '*--have=[what is in the house already, NAME=AMOUNT UNIT]:stock:' \
      '--orders[print the orders alone, a text for each supplier]' \
      '(-o --output)'{-o,--output=}'[write the sheets of the service]:file:_files -g "*.xlsx"' \
      '--language=[language of the sheets]:language:(en fr)' \
      '--service=[a service of the book, DATE/NAME]:service:($(date +%F)/)' \
      '--on=[prices of that day]:date:($(date +%F))' \
      '--json[print figures for a program, unrounded]' \
      '1:book:_files -g "*.croustade"'
    ;;
  allergens)
    _arguments '--help[show help]' \
      '--menu=[the plates of that menu alone]:menu:' \
      '*--avoids=[what a guest avoids]:code:(gluten crustaceans eggs fish peanuts soybeans milk nuts celery mustard sesame sulphites lupin molluscs tree-nuts wheat)' \
      '--list=[the list of the EU or of the US]:list:(eu us)' \
      '--on=[the date that is shown]:date:($(date +%F))' \
      '--json[print it for a program]' \
      '(-o --output)'{-o,--output=}'[write a sheet]:file:_files -g "*.(pdf|xlsx|csv)"' \
      '--language=[language of the sheet]:language:(en fr)' \
      '1:book:_files -g "*.croustade"'
    ;;
  prices)
    _arguments '--help[show help]' \
      '--supplier=[whose prices they are]:supplier:' \
      '--from=[the day from which they hold]:date:($(date +%F))' \
      '*--accept=[a line that waits is right]:line:' \
      '--accept-all[all lines that wait for a second look are right]' \
      '--accept-seller[the invoice is of this supplier]' \
      '*--is=[what a line is]:LINE=NAME, disposable, other, return or price:' \
      '*--holds=[what one pack of a line holds]:LINE=PACK:' \
      '--charges=[what becomes of charges on a whole invoice]:how:(spread book leave)' \
      '--dry-run[say what would change, and change nothing]' \
      '--json[print it for a program]' \
      '1:book:_files -g "*.croustade"' '2:file:_files'
    ;;
  workbook)
    _arguments '--help[show help]' \
      '--month=[prices of the last day of that month]:month:($(date +%Y-%m))' \
      '--language=[language of its words]:language:(en fr)' \
      '(-o --output)'{-o,--output=}'[the file to write]:file:_files -g "*.xlsx"' \
      '--accounts=[the accounts of the journal]:file:_files' \
      '1:book:_files -g "*.croustade"'
    ;;
  card)
    _arguments '--help[show help]' \
      '*--plate=[the card of that plate]:plate:' \
      '*--menu=[the card of that menu]:menu:' \
      '*--preparation=[the card of that preparation]:preparation:' \
      '--all[cards of all plates, menus and preparations]' \
      '--kitchen[kitchen cards, without money]' \
      '--bites=[for so many bites, guests or batches]:number:' \
      '--money[costs on kitchen cards too]' \
      '--paper=[size of the paper]:paper:(a4 letter)' \
      '--on=[prices of that day]:date:($(date +%F))' \
      '--language=[language of its words]:language:(en fr)' \
      '(-o --output)'{-o,--output=}'[the file to write, or a folder]:file:_files' \
      '1:book:_files -g "*.croustade"'
    ;;
  month)
    _arguments '--help[show help]' \
      '--against=[why food cost is another than in that month]:month:($(date +%Y-%m))' \
      '--matrix[how often plates were sold and what one left]' \
      '--journal=[write what the end of the month books]:file:_files' \
      '--accounts=[the accounts of the journal]:file:_files' \
      '--language=[language of the journal]:language:(en fr)' \
      '--json[print figures for a program, unrounded]' \
      '1:book:_files -g "*.croustade"' '2:month:($(date +%Y-%m))'
    ;;
  close)
    _arguments '--help[show help]' \
      '--estimate=[food whose documents are still to come]:money:' \
      '1:book:_files -g "*.croustade"' '2:month:($(date +%Y-%m))'
    ;;
  reopen)
    _arguments '--help[show help]' \
      '--reason=[why it is opened again]:reason:' \
      '1:book:_files -g "*.croustade"' '2:month:($(date +%Y-%m))'
    ;;
  new | check)
    _arguments '--help[show help]' '1:book:_files -g "*.croustade"'
    ;;
esac
