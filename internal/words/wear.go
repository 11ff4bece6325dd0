package words

var wearEnglish = map[string]string{}
