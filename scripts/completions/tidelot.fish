# SPDX-License-Identifier: Apache-2.0
# Made by scripts/command-files from the words that tidelot parses.
complete -c tidelot -f
complete -c tidelot -n __fish_use_subcommand -l version -d 'Print the version'
complete -c tidelot -n __fish_use_subcommand -a scout -d 'Map a bay and rank its sites (the main job)'
complete -c tidelot -n '__fish_seen_subcommand_from scout' -F
complete -c tidelot -n '__fish_seen_subcommand_from scout' -l help -d 'Print this help message and exit'
complete -c tidelot -n '__fish_seen_subcommand_from scout' -l out -r -F -d 'Folder for the results (PLAN-out beside the plan)'
complete -c tidelot -n '__fish_seen_subcommand_from scout' -l threads -x -d 'Workers (one a core; one a process under an MPI launcher)'
complete -c tidelot -n '__fish_seen_subcommand_from scout' -l memory -x -d 'Most memory that the run may hold, such as 800M or 1.5G; a run that would need more does not start'
complete -c tidelot -n '__fish_seen_subcommand_from scout' -l quiet -d 'No progress'
complete -c tidelot -n '__fish_seen_subcommand_from scout' -l sheets -r -F -d 'Folder for the sheets for print as PDF'
complete -c tidelot -n '__fish_seen_subcommand_from scout' -l resume -d 'Go on with a run that was stopped'
complete -c tidelot -n '__fish_seen_subcommand_from scout' -l part -x -d 'Only part K of N, for tidelot join'
complete -c tidelot -n __fish_use_subcommand -a join -d 'Make the results of a run that was computed in parts'
complete -c tidelot -n '__fish_seen_subcommand_from join' -F
complete -c tidelot -n '__fish_seen_subcommand_from join' -l help -d 'Print this help message and exit'
complete -c tidelot -n '__fish_seen_subcommand_from join' -l out -r -F -d 'Folder for the results (PLAN-out beside the plan)'
complete -c tidelot -n '__fish_seen_subcommand_from join' -l threads -x -d 'Workers (one a core; one a process under an MPI launcher)'
complete -c tidelot -n '__fish_seen_subcommand_from join' -l memory -x -d 'Most memory that the run may hold, such as 800M or 1.5G; a run that would need more does not start'
complete -c tidelot -n '__fish_seen_subcommand_from join' -l quiet -d 'No progress'
complete -c tidelot -n '__fish_seen_subcommand_from join' -l sheets -r -F -d 'Folder for the sheets for print as PDF'
complete -c tidelot -n __fish_use_subcommand -a check -d 'Open every layer of a plan and say what it is; run nothing'
complete -c tidelot -n '__fish_seen_subcommand_from check' -F
complete -c tidelot -n '__fish_seen_subcommand_from check' -l help -d 'Print this help message and exit'
complete -c tidelot -n '__fish_seen_subcommand_from check' -l json -d 'Everything of the table as JSON instead'
complete -c tidelot -n __fish_use_subcommand -a explain -d 'One place: the season, what limits it, which rules touch it'
complete -c tidelot -n '__fish_seen_subcommand_from explain' -F
complete -c tidelot -n '__fish_seen_subcommand_from explain' -l help -d 'Print this help message and exit'
complete -c tidelot -n '__fish_seen_subcommand_from explain' -l at -x -d 'The place, degrees WGS 84'
complete -c tidelot -n '__fish_seen_subcommand_from explain' -l csv -d 'The daily series as CSV instead'
complete -c tidelot -n '__fish_seen_subcommand_from explain' -l json -d 'Everything of the text as JSON instead'
complete -c tidelot -n __fish_use_subcommand -a compare -d 'Estuaries side by side, on equal terms'
complete -c tidelot -n '__fish_seen_subcommand_from compare' -F
complete -c tidelot -n '__fish_seen_subcommand_from compare' -l help -d 'Print this help message and exit'
complete -c tidelot -n '__fish_seen_subcommand_from compare' -l out -r -F -d 'Folder for the results (compare-out here)'
complete -c tidelot -n '__fish_seen_subcommand_from compare' -l threads -x -d 'Workers (one a core)'
complete -c tidelot -n '__fish_seen_subcommand_from compare' -l target-kg -x -d 'What each needs for so much nitrogen a year, kg'
complete -c tidelot -n '__fish_seen_subcommand_from compare' -l allow-different -d 'Go on where crop, farm, money or sites differ; it is printed'
complete -c tidelot -n '__fish_seen_subcommand_from compare' -l quiet -d 'No progress'
complete -c tidelot -n '__fish_seen_subcommand_from compare' -l crops -x -d 'Two crops a year: each alone, and in turn on the same lines'
complete -c tidelot -n __fish_use_subcommand -a crops -d 'Crop profiles with their sources'
complete -c tidelot -n '__fish_seen_subcommand_from crops' -l help -d 'Print this help message and exit'
complete -c tidelot -n __fish_use_subcommand -a start -d 'Write a commented plan to begin from'
complete -c tidelot -n '__fish_seen_subcommand_from start' -F
complete -c tidelot -n '__fish_seen_subcommand_from start' -l help -d 'Print this help message and exit'
